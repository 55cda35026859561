// The verdict as a sentence to read out: the live region speaks it, and so can a clerk on the telephone.
import { t } from '../../state/language.js';
import { reasonOf } from '../../state/book.js';
import { gatesOf } from '../../state/shown.js';

export const verdictSentence = (answer) => {
  if (!answer) return '';
  const ids = answer.verdict === 'cant' ? [...new Set(answer.causes.flat())] : gatesOf(answer).map((gate) => gate.id);
  return [t(`verdict.${answer.verdict}.sentence`), ...ids.map(reasonOf)].join(' ');
};
