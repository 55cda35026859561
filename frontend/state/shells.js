// How shells stand, for whoever asks what may still be done to one.
import { t } from './language.js';

const OVER = ['cancelled', 'rejected', 'despatched'];

/** Nothing is built, changed, conceded or decided of it any more. */
export const isOver = ({ state }) => OVER.includes(state);

/** Its serial; of one without, whether one is still to come. */
export const serialText = (shell) => shell.serial ?? t(isOver(shell) ? 'order.never-serial' : 'order.no-serial');
