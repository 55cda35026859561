// When what is written would be ready, asked for anew whenever the question changes.
import { useAnswer } from './reading.js';

const PAUSE = 80;

/** `question`: the JSON text of what POST /api/promises takes; null asks nothing. */
export const usePromise = (question) => useAnswer('/api/promises', question, { pause: PAUSE });
