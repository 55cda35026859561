// Asks why and what instead, about the answers as they are written. One question at a time: the last wins, and what is
// still on its way to another question is given up.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { post, returned, Refusal } from '../api.js';
import { language } from './language.js';
import { sight, standing } from './session.js';

const PAUSE = 80;

const asRefusal = (error) => (error instanceof Refusal ? { problem: error.problem, status: error.status } : null);

/** `more`: what the question has beside the specification; null asks nothing. {body} or {problem}, null until it is there. */
export const useAdvice = (path, job, more) => {
  const held = useSignal(null);
  const text = more && JSON.stringify({ ...JSON.parse(job.question.value), ...more, language: language.value });
  const seen = `${sight.value} ${standing.value} ${returned.value}`;
  useEffect(() => {
    if (!text) return undefined;
    const giveUp = new AbortController();
    const keep = (said) => !giveUp.signal.aborted && (held.value = { text, ...said });
    const timer = setTimeout(() => post(path, JSON.parse(text), { signal: giveUp.signal }).then(keep, (error) => keep(asRefusal(error))), PAUSE);
    return () => {
      clearTimeout(timer);
      giveUp.abort();
    };
  }, [text, seen]);
  return text && held.value?.text === text ? held.value : null;
};
