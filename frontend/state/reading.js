// What a path says, asked again when what the reader may see changes, or when a page says that it changed something.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { get } from '../api.js';
import { sight } from './session.js';
import { problemOf } from './sending.js';

/** `body` null until it is there; `again()` asks once more and leaves what stands until the answer has come. */
export const useReading = (path) => {
  const [body, problem, turns] = [useSignal(null), useSignal(null), useSignal(0)];
  useEffect(() => {
    let stale = false;
    get(path).then(({ body: read }) => !stale && ((body.value = read), (problem.value = null)), (error) => !stale && (problem.value = problemOf(error)));
    return () => (stale = true);
  }, [path, sight.value, turns.value]);
  return { body, problem, again: () => (turns.value += 1) };
};
