// The reader's language, and every text in it. Switching draws anew in place; nothing typed is touched.
import { signal, effect } from '@preact/signals';
import * as english from './english.js';
import * as german from './german.js';

const together = (files) => Object.assign({}, ...Object.values(files));
const TEXTS = { en: together(english), de: together(german) };
const KEPT = 'bodywright.language';

const firstLanguage = () => {
  const kept = localStorage.getItem(KEPT);
  if (kept in TEXTS) return kept;
  return navigator.language?.startsWith('de') ? 'de' : 'en';
};

export const LANGUAGES = Object.keys(TEXTS);
export const language = signal(firstLanguage());

export const speak = (wanted) => {
  if (!(wanted in TEXTS)) return;
  language.value = wanted;
  localStorage.setItem(KEPT, wanted);
};

/** The text of that key with its {slots} filled. An unknown key is shown as itself, so that it is seen. */
export const t = (key, slots = {}) => {
  const text = TEXTS[language.value][key] ?? key;
  return text.replace(/\{(\w+)\}/g, (whole, slot) => (slot in slots ? String(slots[slot]) : whole));
};

/** Whether there is a text under that key. */
export const knows = (key) => key in TEXTS[language.value];

/** A text of the book ({en, de}) in the reader's language. */
export const say = (label) => {
  if (!label) return '';
  if (typeof label === 'string') return label;
  return label[language.value] ?? label.en ?? '';
};

export const followLanguage = () =>
  effect(() => {
    document.documentElement.lang = language.value;
  });
