// When what is written would be ready, asked for anew whenever the question changes. The last question wins.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { post, returned } from '../api.js';
import { language } from './language.js';

const PAUSE = 80;

/** `question`: the JSON text of what POST /api/promises takes; null asks nothing. What was said stays until the next is there. */
export const usePromise = (question) => {
  const held = useSignal(null);
  const [speech, back] = [language.value, returned.value];
  useEffect(() => {
    if (!question) return void (held.value = null);
    const giveUp = new AbortController();
    const timer = setTimeout(() => post('/api/promises', JSON.parse(question), { signal: giveUp.signal }).then(({ body }) => (held.value = body), () => null), PAUSE);
    return () => {
      clearTimeout(timer);
      giveUp.abort();
    };
  }, [question, speech, back]);
  return held.value;
};
