// What was entered on the floor while the signal was away: kept on this tablet under the name of who entered it, shown as unsent, and
// sent once the server is back. No code and no password is ever kept: what has to be signed waits for its signer to type his code again.
// Where the server has moved on meanwhile nothing is sent by itself: both are shown, and a person chooses.
import { effect, signal, untracked, useSignal } from '@preact/signals';
import { away, freshKey, get, post, Refusal, returned } from '../api.js';
import { keep, keptOf, recall } from './kept.js';
import { t } from './language.js';
import { deskTime, person, standing } from './session.js';
import { recordStands, readingStands } from './stands.js';

const NAME = 'unsent';
const PAUSE = 5000;

/**
 * Of whoever is signed in, the oldest first. Each: `id` (its idempotency key), `at`, `shell`, `serial`, `kind`, `path`, `body`, `says`,
 * `subject`, `zones`, `signer` {name, display_name} where it has to be signed, `seen` (keys of how things stood for him),
 * `moved` (texts of what came since), `problem`.
 */
export const unsent = signal([]);

/** Counts what was delivered: a page that shows it reads again. */
export const delivered = signal(0);

/** How each kind is looked at again: where, and what of it matters for this entry, as {key, text}. */
const KINDS = {
  record: { path: ({ shell }) => `/api/shells/${shell}`, stands: recordStands },
  reading: { path: ({ shell }) => `/api/shells/${shell}/inspection`, stands: readingStands },
};

const owner = () => person.value?.name;
const standsOf = (entry, body) => KINDS[entry.kind].stands(body, entry);
const keysOf = (entry, body) => standsOf(entry, body).map(({ key }) => key);

/** Read anew before each change: another tab may have written. False where this tablet keeps nothing. */
const change = (turn) => {
  const after = turn(recall(owner(), NAME) ?? []);
  const kept = keep(owner(), NAME, after) !== null;
  unsent.value = after;
  return kept;
};

const put = (entry) => change((all) => [...all.filter(({ id }) => id !== entry.id), entry]);
const set = (id, what) => change((all) => all.map((one) => (one.id === id ? { ...one, ...what } : one)));

/** Takes it off the tablet: it was delivered, or a person left it out. */
export const drop = (id) => change((all) => all.filter((one) => one.id !== id));

/** Names of others who have something unsent on this tablet. */
export const othersUnsent = () => keptOf(NAME).filter(({ person: name, what }) => name !== owner() && what?.length).map(({ what }) => what[0].by_name);

/** Ids of what is on its way this very moment: the sending of all else passes them over. */
const inHand = new Set();

const send = async (entry, code) => {
  inHand.add(entry.id);
  try {
    return await post(entry.path, code === undefined ? entry.body : { ...entry.body, code }, { key: entry.id });
  } finally {
    inHand.delete(entry.id);
  }
};

/** What came of sending is no news to what this person entered after it. */
const known = (sent, before, body) =>
  change((all) => all.map((one) => {
    if (one.shell !== sent.shell || one.kind !== sent.kind) return one;
    const had = keysOf(one, before);
    return { ...one, seen: [...one.seen, ...keysOf(one, body).filter((key) => !had.includes(key))] };
  }));

const arrived = (entry, before, body) => {
  drop(entry.id);
  known(entry, before, body);
  delivered.value += 1;
};

/**
 * `what`: {kind, shell, serial, path, body, says, subject?, zones?, signer?}; `code` is sent, never kept; `seen`: the server's answer
 * that the page showed. Gives {body} of the answer, {problem} where it was refused, or {kept: true} where it waits here.
 */
export const enter = async (what, seen, code) => {
  const entry = { ...what, id: freshKey(), at: deskTime(), by_name: person.value.display_name };
  entry.seen = keysOf(entry, seen);
  const kept = put(entry);
  try {
    const { body } = await send(entry, code);
    arrived(entry, seen, body);
    return { body };
  } catch (error) {
    if (error instanceof Refusal || !kept) drop(entry.id);
    if (error instanceof Refusal) return { problem: error.problem };
    return kept ? { kept: true } : { problem: { title: t('unsent.no-room'), detail: t('unsent.no-room-detail') } };
  }
};

/** One that waits, whatever the server says meanwhile: a person has looked at it. */
export const sendNow = async (entry, code) => {
  try {
    const { body: before } = await get(KINDS[entry.kind].path(entry));
    const { body } = await send(entry, code);
    arrived(entry, before, body);
  } catch (error) {
    if (error instanceof Refusal) set(entry.id, { problem: error.problem });
  }
};

const movedSince = (entry, body) => standsOf(entry, body).filter(({ key }) => !entry.seen.includes(key)).map(({ text }) => text);

const flushOne = async (entry) => {
  const { body: before } = await get(KINDS[entry.kind].path(entry));
  const moved = movedSince(entry, before);
  if (moved.length || entry.signer) return void set(entry.id, { moved });
  const { body } = await send(entry);
  return void arrived(entry, before, body);
};

/** The session has ended, or the server is away again: what is left waits. */
const stops = (error) => !(error instanceof Refusal) || error.status === 401;

let flushing = false;

const flush = async () => {
  if (flushing || standing.value !== 'in') return;
  flushing = true;
  for (const { id } of unsent.value) {
    const entry = unsent.value.find((one) => one.id === id);
    try {
      if (entry && !entry.problem && !inHand.has(id)) await flushOne(entry);
    } catch (error) {
      if (stops(error)) break;
      set(id, { problem: error.problem });
    }
  }
  flushing = false;
};

const ask = () => get('/api/session', { quiet: true }).catch(() => {});

/** Begins to keep and send. Called once. */
export const followUnsent = () => {
  effect(() => {
    const name = owner();
    unsent.value = name ? recall(name, NAME) ?? [] : [];
  });
  effect(() => void [returned.value, standing.value, owner(), untracked(flush)]);
  effect(() => {
    const timer = away.value && unsent.value.length ? setInterval(ask, PAUSE) : null;
    return () => clearInterval(timer);
  });
  window.addEventListener('online', ask);
  window.addEventListener('storage', () => owner() && (unsent.value = recall(owner(), NAME) ?? []));
};

/** A form whose entry survives a lost signal. `onDone(body)` where it was sent, `onKept()` where it waits. */
export const useEntering = ({ onDone, onKept }) => {
  const [problem, busy] = [useSignal(null), useSignal(false)];
  const send = async (what, seen, code) => {
    busy.value = true;
    const came = await enter(what, seen, code);
    busy.value = false;
    problem.value = came.problem ?? null;
    if (came.kept) onKept();
    if (came.body) onDone(came.body);
  };
  return { send, problem, busy };
};
