// What stands above others on a page comes first, so that nothing that is being read moves.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';

/** `names`: what has to come. `all`: nothing is missing any more; `come(name)`: what says that this one is there. */
export const useComing = (names) => {
  const missing = useSignal(names);
  const come = (name) => () => (missing.value = missing.value.filter((one) => one !== name));
  return { all: !missing.value.length, come };
};

/** Says once that a reading is there, or can't be had. */
export const useReady = ({ body, problem }, onReady) => {
  const settled = Boolean(body.value || problem.value);
  useEffect(() => void (settled && onReady?.()), [settled]);
};
