// Whether the page is as narrow as a telephone held upright, where a long sheet is folded; and whether it is as wide as a
// desk, where the title block stands beside the sheet.
import { signal } from '@preact/signals';

const NARROW = window.matchMedia('(max-width: 700px)');

export const narrow = signal(NARROW.matches);

NARROW.addEventListener('change', () => (narrow.value = NARROW.matches));

const ABREAST = window.matchMedia('(min-width: 1001px)');

export const abreast = signal(ABREAST.matches);

ABREAST.addEventListener('change', () => (abreast.value = ABREAST.matches));
