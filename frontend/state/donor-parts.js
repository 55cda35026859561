// What is sent and kept of the donor car, for a question of POST /api/answers.
import { language } from './language.js';
import { useAnswer } from './reading.js';

/** `question`: its JSON text, null asks nothing; `units`: metric or imperial. Null: not known yet. */
export const useDonorParts = (question, units) =>
  useAnswer('/api/donor-parts', question && JSON.stringify({ ...JSON.parse(question), language: language.value, units }));
