// What is sent and kept of the donor car, for a question of POST /api/answers. What was said before stays until the next is
// there; an earlier answer that comes late is dropped.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { post } from '../api.js';
import { language } from './language.js';

/** `question`: its JSON text, null asks nothing; `units`: metric or imperial. Null: not known yet. */
export const useDonorParts = (question, units) => {
  const found = useSignal(null);
  const speech = language.value;
  useEffect(() => {
    if (!question) return undefined;
    const giveUp = new AbortController();
    post('/api/donor-parts', { ...JSON.parse(question), language: speech, units }, { signal: giveUp.signal }).then(({ body }) => (found.value = body), () => null);
    return () => giveUp.abort();
  }, [question, units, speech]);
  return found.value;
};
