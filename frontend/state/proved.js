// What the server proves of a book. It may take a while: told to ask again, this asks again by itself.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { get, Away, Refusal } from '../api.js';
import { language } from './language.js';
import { sight } from './session.js';

const AGAIN = 2000;
const isUnderway = (error) => error instanceof Away || (error instanceof Refusal && error.problem.type === '/problems/being-worked-out');

/** `body` null until it is there; `problem` where there will be none. Asked anew in another language or sight. */
export const useProved = (path, query = '') => {
  const held = useSignal({ body: null, problem: null });
  useEffect(() => {
    if (!path) return undefined;
    let timer = null;
    let left = false;
    const ask = () =>
      get(`${path}?${query || `language=${language.value}`}`).then(
        ({ body }) => left || (held.value = { body, problem: null }),
        (error) => {
          if (left) return;
          if (isUnderway(error)) timer = setTimeout(ask, AGAIN);
          else if (error instanceof Refusal) held.value = { body: null, problem: error.problem };
          else throw error;
        },
      );
    ask();
    return () => {
      left = true;
      clearTimeout(timer);
    };
  }, [path, query, language.value, sight.value]);
  return held.value;
};
