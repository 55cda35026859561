// The steps that can be undone, kept through a reload of the page: in this window only, and gone with it. They count only
// where the server holds no other version than they were made on: what a colleague has written since is never undone.
import { effect, untracked } from '@preact/signals';
import { brought, sameShape } from './shape.js';
import { person } from './session.js';

const MOST = 60;
/** Characters: a window may keep some millions. */
const LONGEST = 600_000;
const MOMENT = 250;

const nameOf = (who, key) => `bodywright.steps.${who}.${key}`;

const tryStorage = (deed) => {
  try {
    return deed();
  } catch {
    return null;
  }
};

/** The newest steps, as many as there is room for. */
const within = (documents) => {
  let room = LONGEST;
  const kept = [];
  for (const document of documents.slice(-MOST).reverse()) {
    room -= JSON.stringify(document).length;
    if (room < 0) break;
    kept.unshift(document);
  }
  return kept;
};

export const forgetSteps = (who, key) => tryStorage(() => sessionStorage.removeItem(nameOf(who, key)));

const versionsOf = (job) => [job.server.peek().enquiryEtag ?? null, job.server.peek().revisionEtag ?? null];

const keepSteps = (job) => {
  const who = person.peek()?.name;
  if (!who) return;
  const what = { on: versionsOf(job), past: within(job.past.peek()), future: within(job.future.peek()) };
  tryStorage(() => sessionStorage.setItem(nameOf(who, job.key.peek()), JSON.stringify(what)));
};

/** The job with its steps, where they were made on the version that it holds. */
export const withSteps = (job) => {
  const kept = tryStorage(() => JSON.parse(sessionStorage.getItem(nameOf(person.peek()?.name, job.key.peek()))));
  if (!kept || !sameShape(kept.on, versionsOf(job))) return job;
  job.past.value = kept.past.map((document) => brought(document, job.document.value));
  job.future.value = kept.future.map((document) => brought(document, job.document.value));
  return job;
};

/** Keeps the steps a moment after the last of them, and at the latest when the page is left. Returns what stops it. */
export const followSteps = (job) => {
  let timer = null;
  const now = () => {
    clearTimeout(timer);
    timer = null;
    untracked(() => keepSteps(job));
  };
  const stop = effect(() => {
    [job.past.value, job.future.value, job.server.value, job.key.value];
    clearTimeout(timer);
    timer = setTimeout(now, MOMENT);
  });
  const leave = () => timer && now();
  window.addEventListener('pagehide', leave);
  return () => {
    leave();
    stop();
    window.removeEventListener('pagehide', leave);
  };
};
