// Whether the page is as narrow as a telephone held upright: there a long sheet is folded.
import { signal } from '@preact/signals';

const NARROW = window.matchMedia('(max-width: 700px)');

export const narrow = signal(NARROW.matches);

NARROW.addEventListener('change', () => (narrow.value = NARROW.matches));
