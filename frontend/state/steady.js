// A list that changes under its reader stays where it is for him: what he looks at keeps its height, what he is at its focus.
import { useLayoutEffect, useRef } from 'preact/hooks';

/** What he is at, else the first that he sees of those that `which` selects. */
const heldBy = (which) => document.activeElement?.closest(which) ?? [...document.querySelectorAll(which)].find((one) => one.getBoundingClientRect().bottom > 0);

/** `turn`: whatever it is, another one was drawn. Gives `before()`, to be called just before that. Every one has an id. */
export const useSteady = (which, turn) => {
  const held = useRef(null);
  useLayoutEffect(() => {
    const was = held.current;
    held.current = null;
    const there = was && document.getElementById(was.id);
    if (!there) return;
    if (was.focused && !there.contains(document.activeElement)) there.focus({ preventScroll: true });
    scrollBy({ top: there.getBoundingClientRect().top - was.top, behavior: 'instant' });
  }, [turn]);
  return () => {
    const there = heldBy(which);
    held.current = there ? { id: there.id, top: there.getBoundingClientRect().top, focused: there.contains(document.activeElement) } : null;
  };
};
