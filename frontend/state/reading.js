// What the server says, asked again when what the reader may see changes, when the server is back, or when a page says that
// it changed something. The last question wins: an earlier answer that comes late is dropped.
import { useEffect } from 'preact/hooks';
import { batch, useSignal } from '@preact/signals';
import { get, post, returned, Refusal } from '../api.js';
import { language, t } from './language.js';
import { sight } from './session.js';
import { problemOf } from './sending.js';

/** From the change to the asking once something stands, in ms: one deed may change several things, and is asked about once. */
const PAUSE = 50;

/** Why nothing was read. Where the server is away there is nothing to press: it is asked again once it is back. */
export const whyNotRead = (error) => (error instanceof Refusal ? { status: error.status, ...error.problem } : { title: t('away.title'), detail: t('away.later') });

/**
 * What a path says; null asks nothing. `turn`: whatever it is, another one asks again.
 * `body` null until it is there; what stands is left until the answer has come. `again()` asks once more.
 */
export const useReading = (path, turn) => {
  const [body, problem, turns] = [useSignal(null), useSignal(null), useSignal(0)];
  useEffect(() => {
    if (!path) return undefined;
    const giveUp = new AbortController();
    const ask = () => get(path, { signal: giveUp.signal }).then(
      (answer) => giveUp.signal.aborted || batch(() => ((body.value = answer.body), (problem.value = null))),
      (error) => giveUp.signal.aborted || (problem.value = whyNotRead(error)),
    );
    const timer = setTimeout(ask, body.peek() ? PAUSE : 0);
    return () => {
      clearTimeout(timer);
      giveUp.abort();
    };
  }, [path, turn, sight.value, returned.value, turns.value]);
  return { body, problem, again: () => (turns.value += 1) };
};

/** The same of what takes a while: asked again every `pause` ms while it is underway. `begin(what)` sets it going. */
export const useUnderway = (path, pause, turn) => {
  const { body, problem, again } = useReading(path, turn);
  useEffect(() => {
    if (body.value?.state !== 'underway') return undefined;
    const timer = setTimeout(again, pause);
    return () => clearTimeout(timer);
  }, [body.value]);
  const begin = (what) => post(path, what).then(again, (error) => (problem.value = problemOf(error)));
  return { body, problem, begin };
};

/**
 * What a path says to a question: its JSON text, null asks nothing and says nothing. What was said stays until the next is
 * there, with the question it was said to as `asked`. `pause`: ms from the last change to the asking; `first`: the same
 * while nothing stands; `turn`: whatever it is, another one asks again.
 */
export const useAnswer = (path, question, { pause = 0, first = pause, turn } = {}) => {
  const held = useSignal(null);
  const [speech, back] = [language.value, returned.value];
  useEffect(() => {
    if (!question) return void (held.value = null);
    const giveUp = new AbortController();
    const ask = () => post(path, JSON.parse(question), { signal: giveUp.signal }).then(({ body }) => giveUp.signal.aborted || (held.value = { ...body, asked: JSON.parse(question) }), () => null);
    const timer = setTimeout(ask, held.peek() ? pause : first);
    return () => {
      clearTimeout(timer);
      giveUp.abort();
    };
  }, [path, question, turn, speech, back]);
  return held.value;
};
