// Keeps what a page shows as it stands on the server, by itself and quietly: asked again now and then while somebody can see it,
// never while it is hidden, offline or signed out. What is the same is left alone, so nothing is drawn again for nothing.
import { useEffect } from 'preact/hooks';
import { signal, useSignal } from '@preact/signals';
import { get } from '../api.js';
import { deskTime, standing } from './session.js';

/** From one answer to the next question, in ms. */
const PAUSE = 20_000;

/** Whether this tablet says that it has no network. */
export const offline = signal(!navigator.onLine);
['online', 'offline'].forEach((name) => window.addEventListener(name, () => (offline.value = !navigator.onLine)));

const idle = () => document.hidden || !navigator.onLine || standing.peek() !== 'in';

const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

/**
 * `body`: the signal in which the answer to `path` stands, null until it is there. `join(now, before)`: what of a new answer is
 * shown; `before()`: called just before it is. Gives when it was last so, by the desk's clock; null: never.
 */
export const useFresh = (path, body, { join = (now) => now, before = () => {} } = {}) => {
  const asOf = useSignal(null);
  useEffect(() => {
    if (!body.value) return undefined;
    asOf.value = deskTime();
    const giveUp = new AbortController();
    let [timer, asking] = [null, false];
    const wait = () => {
      clearTimeout(timer);
      if (!giveUp.signal.aborted && !document.hidden) timer = setTimeout(look, PAUSE);
    };
    const show = (now) => {
      asOf.value = deskTime();
      const next = join(now, body.peek());
      if (same(next, body.peek())) return;
      before();
      body.value = next;
    };
    const look = async () => {
      if (asking || idle()) return wait();
      asking = true;
      await get(path, { signal: giveUp.signal }).then((answer) => giveUp.signal.aborted || show(answer.body), () => null);
      asking = false;
      return wait();
    };
    const seen = () => (document.hidden ? clearTimeout(timer) : look());
    wait();
    document.addEventListener('visibilitychange', seen);
    window.addEventListener('online', seen);
    return () => {
      giveUp.abort();
      clearTimeout(timer);
      document.removeEventListener('visibilitychange', seen);
      window.removeEventListener('online', seen);
    };
  }, [path, body.value]);
  return asOf;
};
