// The drawing of a question, asked for anew whenever the question changes. What was drawn before stays until the next one
// is there; an earlier one that comes late is dropped.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { post, returned } from '../api.js';
import { language } from './language.js';

const NARROW = window.matchMedia('(max-width: 700px)');

/** 'stacked' where there is no room for two views beside each other. Follows the window. */
export const useArrangement = () => {
  const narrow = useSignal(NARROW.matches);
  useEffect(() => {
    const follow = () => (narrow.value = NARROW.matches);
    NARROW.addEventListener('change', follow);
    return () => NARROW.removeEventListener('change', follow);
  }, []);
  return narrow.value ? 'stacked' : 'abreast';
};

/** `question`: the JSON text of what POST /api/answers takes; null asks nothing. Answers the drawing or null. */
export const useDrawing = (question, arrangement) => {
  const drawn = useSignal(null);
  const [speech, back] = [language.value, returned.value];
  useEffect(() => {
    if (!question) return undefined;
    const giveUp = new AbortController();
    post('/api/drawings', { ...JSON.parse(question), arrangement, language: speech }, { signal: giveUp.signal }).then(
      ({ body }) => (drawn.value = body.drawing),
      () => null,
    );
    return () => giveUp.abort();
  }, [question, arrangement, speech, back]);
  return drawn.value;
};
