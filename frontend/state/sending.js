// One form that sends once: pressed twice is sent once, and what was typed stays until it was taken.
import { useSignal } from '@preact/signals';
import { freshKey, post, Refusal } from '../api.js';
import { t } from './language.js';

export const problemOf = (error) => (error instanceof Refusal ? error.problem : { title: t('away.title'), detail: t('away.sign-in') });

/** What is wrong with one field, where the refusal names it. `problem`: a signal. */
export const errorOf = (problem, name) => problem.value?.errors?.[name]?.join(' ');

/** `send(path, body, {etag})` gives the answer's body, or null where it was refused; `problem` says why. */
export const useSending = () => {
  const [problem, busy, key] = [useSignal(null), useSignal(false), useSignal(freshKey())];
  const send = async (path, body, options = {}) => {
    busy.value = true;
    try {
      const answer = await post(path, body, { ...options, key: key.value });
      problem.value = null;
      key.value = freshKey();
      return answer.body;
    } catch (error) {
      problem.value = problemOf(error);
      if (error instanceof Refusal) key.value = freshKey();
      return null;
    } finally {
      busy.value = false;
    }
  };
  return { send, problem, busy };
};
