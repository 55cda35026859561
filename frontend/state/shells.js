// How shells stand, for whoever asks what may still be done to one.
const OVER = ['cancelled', 'rejected', 'despatched'];

/** Nothing is built, changed, conceded or decided of it any more. */
export const isOver = ({ state }) => OVER.includes(state);
