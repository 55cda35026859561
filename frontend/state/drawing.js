// The drawing of a question, asked for anew whenever the question changes.
import { useEffect, useRef } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { language } from './language.js';
import { useAnswer } from './reading.js';

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

/** `question`: the JSON text of what POST /api/answers takes; null asks nothing, and what was drawn stays. */
export const useDrawing = (question, arrangement) => {
  const drawn = useRef(null);
  const answer = useAnswer('/api/drawings', question && JSON.stringify({ ...JSON.parse(question), arrangement, language: language.value }));
  drawn.current = answer?.drawing ?? drawn.current;
  return drawn.current;
};
