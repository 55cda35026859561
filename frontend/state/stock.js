// What of the firm's stock fits what is written, and taking one of its shells to the quotation.
import { batch } from '@preact/signals';
import { freshKey, post } from '../api.js';
import { t } from './language.js';
import { readDocument } from './shape.js';
import { fetchTheirs, save } from './saving.js';
import { may } from './session.js';
import { problemOf } from './sending.js';
import { useAnswer } from './reading.js';

const PAUSE = 250;

/** `job`: asked for once its line is complete and can be built. */
export const useMatches = (job, turn) => {
  const { value: answer } = job.answer;
  const whole = may('ask-stock') && job.fresh.value && answer?.complete && answer.verdict !== 'cant';
  return useAnswer('/api/stock-matches', whole ? job.question.value : null, { pause: PAUSE, turn });
};

/** What the server made of the draft, as one step of its history. */
const adopt = async (job, number, at) => {
  const theirs = await fetchTheirs(number);
  const document = readDocument(theirs.enquiry, theirs.revision);
  batch(() => {
    job.server.value = { ...job.server.value, ...theirs };
    job.past.value = [...job.past.value, job.document.value];
    job.future.value = [];
    job.document.value = document;
    job.saved.value = document;
    job.lineKey.value = (document.lines[at] ?? document.lines[0]).key;
  });
};

const unsafe = (job) => job.saving.value.problem ?? { title: t('from-stock.not-saved'), detail: t('from-stock.not-saved-why') };

/** The line that is being written becomes that shell. Gives the problem, or null. */
export const takeFromStock = async (job, shell) => {
  const at = job.document.value.lines.indexOf(job.line.value);
  if (!(await save(job)) || !job.server.value.quotation) return unsafe(job);
  const { quotation, revision, revisionEtag } = job.server.value;
  const path = `/api/quotations/${quotation.number}/revisions/${revision.letter}/stock`;
  try {
    await post(path, { shell, line: at + 1 }, { etag: revisionEtag, key: freshKey() });
    await adopt(job, quotation.number, at);
    return null;
  } catch (error) {
    return problemOf(error);
  }
};
