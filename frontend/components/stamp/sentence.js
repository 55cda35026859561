// The verdict as a sentence to read out: the live region speaks it, and so can a clerk on the telephone.
import { t } from '../../state/language.js';
import { isTool, nameOf, reasonOf } from '../../state/book.js';
import { gatesOf } from '../../state/shown.js';
import { toolText } from '../reasons/reasons.js';
import { ofCar } from './stamp.js';

const gateSentence = ({ id, kind }, answer) => (kind === 'tool' ? `${toolText(id, answer.tools_down)}.` : reasonOf(id));
const causeSentence = (id) => (isTool(id) ? `${nameOf(id)}: ${reasonOf(id)}` : reasonOf(id));

/** `known`: the donor car is; else it is held against the original car of the series. */
export const verdictSentence = (answer, known = false) => {
  if (!answer) return '';
  const told = answer.verdict === 'cant' ? [...new Set(answer.causes.flat())].map(causeSentence) : gatesOf(answer).map((gate) => gateSentence(gate, answer));
  return [t(ofCar(`verdict.${answer.verdict}.sentence`, answer.verdict, known)), ...told].join(' ');
};
