// Saves a job by itself, a moment after the last change, one save at a time. A colleague's change is never written
// over: it stops the saving until a person has looked at both.
import { batch, effect } from '@preact/signals';
import { get, post, patch, put, away, freshKey, Away, Refusal } from '../api.js';
import { enquiryPart, revisionPart, readDocument, sameShape } from './shape.js';
import { keep, forget } from './kept.js';
import { person, standing } from './session.js';

const MOMENT = 600;
const RETRY = 4000;

const told = (job, more) => {
  job.server.value = { ...job.server.value, ...more };
};

/** The same key until it went through, so that a lost answer makes no second enquiry. */
const keyFor = (job, deed) => (job[`${deed}Key`] ??= freshKey());

const saveEnquiry = async (job, document) => {
  const { enquiry, enquiryEtag } = job.server.value;
  const part = enquiryPart(document);
  if (!enquiry) {
    const { body, etag } = await post('/api/enquiries', part, { key: keyFor(job, 'enquiry') });
    return told(job, { enquiry: body, enquiryEtag: etag });
  }
  if (job.saved.value && sameShape(enquiryPart(job.saved.value), enquiryPart(document))) return null;
  const { body, etag } = await patch(`/api/enquiries/${enquiry.id}`, part, { etag: enquiryEtag });
  return told(job, { enquiry: body, enquiryEtag: etag });
};

const openQuotation = async (job, document) => {
  const { price_list, delivery_place } = revisionPart(document);
  const { body } = await post(
    `/api/enquiries/${job.server.value.enquiry.id}/quotations`,
    { price_list, delivery_place },
    { key: keyFor(job, 'quotation') },
  );
  const { revision, etag } = await fetchRevision(body.number, body.revisions.at(-1).letter);
  told(job, { quotation: body, revision, revisionEtag: etag });
  job.filed?.();
};

const fetchRevision = async (number, letter) => {
  const { body, etag } = await get(`/api/quotations/${number}/revisions/${letter}`);
  return { revision: body, etag };
};

const revisionAddress = ({ quotation, revision }) => `/api/quotations/${quotation.number}/revisions/${revision.letter}`;

/** An enquiry that was opened from the desk is quoted for only once something of a quotation is written. */
const saveRevision = async (job, document) => {
  if (job.saved.value && sameShape(revisionPart(job.saved.value), revisionPart(document))) return;
  if (!job.server.value.quotation) await openQuotation(job, document);
  const { body, etag } = await put(revisionAddress(job.server.value), revisionPart(document), {
    etag: job.server.value.revisionEtag,
  });
  told(job, { revision: body, revisionEtag: etag });
};

/** What the server holds now, for looking at both versions side by side. */
export const fetchTheirs = async (number) => {
  const { body: quotation } = await get(`/api/quotations/${number}`);
  const letter = quotation.revisions.at(-1).letter;
  const [{ revision, etag }, answer] = await Promise.all([
    fetchRevision(number, letter),
    get(`/api/enquiries/${quotation.enquiry?.id ?? quotation.enquiry}`),
  ]);
  return { quotation, revision, revisionEtag: etag, enquiry: answer.body, enquiryEtag: answer.etag };
};

export const fetchEnquiry = async (id) => {
  const { body, etag } = await get(`/api/enquiries/${id}`);
  return { enquiry: body, enquiryEtag: etag };
};

/** Only the enquiry is at the server: what belongs to a quotation is still all one's own. */
const enquiryOf = async (job) => {
  const theirs = await fetchEnquiry(job.server.value.enquiry.id);
  const { price_list, delivery_place, revision_note, lines, extras } = job.document.value;
  return { theirs, document: { ...readDocument(theirs.enquiry, null), price_list, delivery_place, revision_note, lines, extras } };
};

const quotationOf = async (job) => {
  const theirs = await fetchTheirs(job.server.value.quotation.number);
  return { theirs, document: readDocument(theirs.enquiry, theirs.revision) };
};

const stopForConflict = async (job) => ({ state: 'conflict', ...(await (job.server.value.quotation ? quotationOf : enquiryOf)(job)) });

const whatStopped = async (job, error) => {
  if (error instanceof Away) return { state: 'away' };
  if (!(error instanceof Refusal)) throw error;
  if (error.status === 401) return { state: 'ended' };
  if (error.status === 412) return stopForConflict(job);
  return { state: 'refused', problem: error.problem };
};

/** A job can be saved once there is a name to file it under. */
export const canBeFiled = (document) => document.customer.name.trim() !== '';

const saveOnce = async (job) => {
  const document = job.document.value;
  await saveEnquiry(job, document);
  await saveRevision(job, document);
  job.saved.value = document;
};

const isBlocked = (job) => job.saving.value.state === 'conflict' || job.issued.value || standing.value !== 'in';

/** Saves until nothing is unsaved. Answers true when all is safe. */
export const save = async (job) => {
  if (job.running) return job.running;
  if (!job.unsaved.value || isBlocked(job) || !canBeFiled(job.document.value)) return !job.unsaved.value;
  job.saving.value = { state: 'saving' };
  job.running = saveOnce(job).then(
    () => ({ state: 'saved' }),
    (error) => whatStopped(job, error).catch(() => ({ state: 'away' })),
  );
  job.saving.value = await job.running;
  job.running = null;
  if (job.saving.value.state !== 'saved') return false;
  return job.unsaved.value ? save(job) : true;
};

/** After a conflict: keep what was typed here, over what is there now. */
export const keepMine = (job) => {
  const { theirs, document } = job.saving.value;
  batch(() => {
    told(job, theirs);
    job.saved.value = document;
    job.saving.value = { state: 'idle' };
  });
  return save(job);
};

/** After a conflict: take what is there now. What was typed here stays in the history, one undo away. */
export const takeTheirs = (job) => {
  const { theirs, document } = job.saving.value;
  batch(() => {
    told(job, theirs);
    job.past.value = [...job.past.value, job.document.value];
    job.document.value = document;
    job.saved.value = document;
    job.saving.value = { state: 'idle' };
  });
};

const keepHere = (job) => {
  const { document, unsaved, key, server } = job;
  const name = person.value?.name;
  if (!name) return;
  if (!unsaved.value) return forget(name, key.value);
  keep(name, key.value, { document: document.value, server: server.value, saved: job.saved.value });
};

/** Saves and keeps whenever the document changes. Returns what stops it. */
export const followSaving = (job) => {
  let timer = null;
  const stopKeeping = effect(() => keepHere(job));
  const stopSaving = effect(() => {
    job.document.value;
    standing.value;
    away.value;
    clearTimeout(timer);
    timer = setTimeout(() => save(job), away.value ? RETRY : MOMENT);
  });
  const again = setInterval(() => {
    if (job.saving.value.state === 'away') save(job);
  }, RETRY);
  return () => {
    clearTimeout(timer);
    clearInterval(again);
    stopKeeping();
    stopSaving();
  };
};
