// The photographs of an enquiry, and those on their way to the server. A file whose sending failed is kept with its key and
// sent again, by itself once the server is back or by a press; it is kept as long as this page is open.
import { effect, signal } from '@preact/signals';
import { away, Away, Refusal, freshKey, get, remove, upload } from '../api.js';

const files = new Map();

/** `kept`: what the server holds, null: not known yet; `going`: what is not there yet, the first chosen first. */
export const photographsOf = (enquiry) => {
  if (!files.has(enquiry)) files.set(enquiry, { enquiry, kept: signal(null), going: signal([]) });
  return files.get(enquiry);
};

const addressOf = (enquiry) => `/api/enquiries/${enquiry}/photographs`;

export const readPhotographs = (of) =>
  get(addressOf(of.enquiry)).then(({ body }) => (of.kept.value = body.photographs), () => null);

const change = (of, one, more) => {
  of.going.value = of.going.value.map((other) => (other.key === one.key ? { ...other, ...more } : other));
};

export const letGo = (of, one) => {
  of.going.value = of.going.value.filter(({ key }) => key !== one.key);
};

const failed = (of, one, error) => {
  if (error instanceof Away) return change(of, one, { state: 'away' });
  return change(of, one, { state: 'refused', problem: error instanceof Refusal ? error.problem : null });
};

export const sendAgain = async (of, one) => {
  change(of, one, { state: 'going', share: 0 });
  const about = new URLSearchParams({ shows: one.shows, part: one.part, note: one.note });
  try {
    const added = await upload(`${addressOf(of.enquiry)}?${about}`, one.file, { key: one.key, onPart: (share) => change(of, one, { share }) });
    of.kept.value = [...(of.kept.value ?? []).filter(({ id }) => id !== added.id), added];
    if (one.file.type === 'application/pdf') await readPhotographs(of);
    letGo(of, one);
  } catch (error) {
    failed(of, one, error);
  }
};

/** `about`: shows, part, note. One after the other, so that a slow line carries each whole. */
export const sendFiles = async (of, chosen, about) => {
  const rows = chosen.map((file) => ({ ...about, file, key: freshKey(), share: 0, state: 'waits', problem: null }));
  of.going.value = [...of.going.value, ...rows];
  for (const row of rows) await sendAgain(of, row);
};

export const takeOut = async (of, one) => {
  await remove(`${addressOf(of.enquiry)}/${one.id}`);
  of.kept.value = of.kept.value.filter(({ id }) => id !== one.id);
};

/** Whether anything would be lost if the page were closed now. */
const anyGoing = () => [...files.values()].some(({ going }) => going.value.some(({ state }) => state !== 'refused'));

window.addEventListener('beforeunload', (event) => anyGoing() && event.preventDefault());

effect(() => {
  if (away.value) return;
  for (const of of files.values()) of.going.peek().filter(({ state }) => state === 'away').forEach((one) => sendAgain(of, one));
});
