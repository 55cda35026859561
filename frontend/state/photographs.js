// The photographs of an enquiry, and those on their way to the server. A file whose sending failed is kept with its key and
// sent again, by itself once the server is back or by a press; it is kept as long as this page is open.
import { effect, signal } from '@preact/signals';
import { away, Away, Refusal, freshKey, get, remove, upload } from '../api.js';

const files = new Map();

/** `going`: what is not at `address` yet, the first chosen first; `taken(answer, file)`: what is done once one has arrived. */
export const uploadsTo = (address, taken) => {
  if (!files.has(address)) files.set(address, { address, kept: signal(null), going: signal([]) });
  return Object.assign(files.get(address), taken ? { taken } : {});
};

/** `kept`: what the server holds, null: not known yet. */
export const photographsOf = (enquiry) => {
  const of = uploadsTo(`/api/enquiries/${enquiry}/photographs`);
  of.taken = (added, file) => {
    of.kept.value = [...(of.kept.value ?? []).filter(({ id }) => id !== added.id), added];
    return file.type === 'application/pdf' ? readPhotographs(of) : null;
  };
  return of;
};

export const readPhotographs = (of) => get(of.address).then(({ body }) => (of.kept.value = body.photographs), () => null);

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
  try {
    const added = await upload(`${of.address}?${new URLSearchParams(one.about)}`, one.file, { key: one.key, onPart: (share) => change(of, one, { share }) });
    await of.taken(added, one.file);
    letGo(of, one);
  } catch (error) {
    failed(of, one, error);
  }
};

/** `about`: what is said of each, in the address: shows, part, note. One after the other, so that a slow line carries each whole. */
export const sendFiles = async (of, chosen, about) => {
  const rows = chosen.map((file) => ({ ...about, about, file, key: freshKey(), share: 0, state: 'waits', problem: null }));
  of.going.value = [...of.going.value, ...rows];
  for (const row of rows) await sendAgain(of, row);
};

export const takeOut = async (of, one) => {
  await remove(`${of.address}/${one.id}`);
  of.kept.value = of.kept.value.filter(({ id }) => id !== one.id);
};

/** Whether anything would be lost if the page were closed now. */
const anyGoing = () => [...files.values()].some(({ going }) => going.value.some(({ state }) => state !== 'refused'));

window.addEventListener('beforeunload', (event) => anyGoing() && event.preventDefault());

effect(() => {
  if (away.value) return;
  for (const of of files.values()) of.going.peek().filter(({ state }) => state === 'away').forEach((one) => sendAgain(of, one));
});
