// What the server shows of a job hangs on who may see what, and in which language: where that changes it is read again.
import { effect, untracked } from '@preact/signals';
import { fetchTheirs } from './saving.js';
import { sight } from './session.js';

/** A colleague's change is left for the next save to meet: both are shown then. */
const readAgain = async (job) => {
  const number = job.server.value.quotation?.number;
  const theirs = number && (await fetchTheirs(number).catch(() => null));
  const here = job.server.value;
  if (!theirs || theirs.revisionEtag !== here.revisionEtag || theirs.revision.letter !== here.revision.letter) return;
  job.server.value = { ...here, quotation: theirs.quotation, revision: theirs.revision };
};

/** Returns what stops it. */
export const followSight = (job) => {
  let seen = sight.peek();
  return effect(() => {
    if (sight.value === seen) return;
    seen = sight.value;
    untracked(() => readAgain(job));
  });
};
