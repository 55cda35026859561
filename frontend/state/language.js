// The reader's language, and every text in it. Switching draws anew in place; nothing typed is touched.
import { signal, effect } from '@preact/signals';
import { en } from '../words/en.js';
import { de } from '../words/de.js';
import { dealersEn } from '../words/dealers.en.js';
import { dealersDe } from '../words/dealers.de.js';
import { floorEn } from '../words/floor.en.js';
import { floorDe } from '../words/floor.de.js';
import { draftingEn } from '../words/drafting.en.js';
import { draftingDe } from '../words/drafting.de.js';
import { weeksEn } from '../words/weeks.en.js';
import { weeksDe } from '../words/weeks.de.js';
import { peopleEn } from '../words/people.en.js';
import { peopleDe } from '../words/people.de.js';
import { feedsEn } from '../words/feeds.en.js';
import { feedsDe } from '../words/feeds.de.js';
import { workshopEn } from '../words/workshop.en.js';
import { workshopDe } from '../words/workshop.de.js';
import { stockEn } from '../words/stock.en.js';
import { stockDe } from '../words/stock.de.js';
import { watchingEn } from '../words/watching.en.js';
import { watchingDe } from '../words/watching.de.js';

const TEXTS = {
  en: { ...en, ...dealersEn, ...draftingEn, ...floorEn, ...weeksEn, ...peopleEn, ...feedsEn, ...workshopEn, ...stockEn, ...watchingEn },
  de: { ...de, ...dealersDe, ...draftingDe, ...floorDe, ...weeksDe, ...peopleDe, ...feedsDe, ...workshopDe, ...stockDe, ...watchingDe },
};
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
