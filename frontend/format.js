// Figures and days as the reader writes them. No sum is made here: amounts arrive whole, in minor units.
import { language } from './state/language.js';

const LOCALES = { en: 'en-GB', de: 'de-DE' };
const locale = () => LOCALES[language.value];

const made = new Map();
const kept = (kind, options) => {
  const name = JSON.stringify([kind.name, locale(), options]);
  if (!made.has(name)) made.set(name, new kind(locale(), options));
  return made.get(name);
};

/** Whole minor units as text in decimal form, without passing through a fraction. `places`: digits of the minor unit. */
const decimal = (minor, places) => {
  const digits = String(Math.abs(minor)).padStart(places + 1, '0');
  const whole = digits.slice(0, digits.length - places);
  return `${minor < 0 ? '-' : ''}${whole}${places ? `.${digits.slice(-places)}` : ''}`;
};

const figure = (minor, currency, signDisplay) => {
  const written = kept(Intl.NumberFormat, { style: 'currency', currency, signDisplay, currencyDisplay: 'narrowSymbol' });
  return written.format(decimal(minor, written.resolvedOptions().maximumFractionDigits)).replace('-', '−');
};

export const money = (minor, currency) => figure(minor, currency, 'auto');
export const difference = (minor, currency) => figure(minor, currency, 'exceptZero');
export const wholeNumber = (digits) => kept(Intl.NumberFormat, {}).format(BigInt(digits));
/** What stands between whole and part in the reader's country. */
export const decimalKey = () => kept(Intl.NumberFormat, {}).formatToParts(1.5).find(({ type }) => type === 'decimal').value;
/** A decimal in text, none of it rounded. */
export const exact = (text) => kept(Intl.NumberFormat, { maximumFractionDigits: 20 }).format(text);
export const percent = (value) => kept(Intl.NumberFormat, { style: 'percent', maximumFractionDigits: 2 }).format(Number(value) / 100);
/** A, B and C. */
export const listed = (texts) => kept(Intl.ListFormat, {}).format(texts);
/** A share to one place, always shown. */
export const share = (value) => kept(Intl.NumberFormat, { style: 'percent', minimumFractionDigits: 1, maximumFractionDigits: 1 }).format(Number(value) / 100);

// A day without a time is nobody's midnight: it is read and written in UTC so that no zone moves it.
const moment = (text) => new Date(text.length === 10 ? `${text}T00:00:00Z` : text);
const zoneOf = (text) => (text.length === 10 ? 'UTC' : 'Europe/London');

export const day = (text) =>
  text ? kept(Intl.DateTimeFormat, { day: 'numeric', month: 'short', year: 'numeric', timeZone: zoneOf(text) }).format(moment(text)) : '';
/** The day that ends at this moment: what is valid until midnight is valid to the end of the day before. */
export const lastDay = (text) => (text ? day(new Date(moment(text).getTime() - 1).toISOString()) : '');
export const dayAndTime = (text) =>
  text
    ? kept(Intl.DateTimeFormat, { day: 'numeric', month: 'short', year: 'numeric', hour: '2-digit', minute: '2-digit', timeZone: 'Europe/London' }).format(moment(text))
    : '';
/** At the firm. */
export const timeOfDay = (text) => kept(Intl.DateTimeFormat, { hour: '2-digit', minute: '2-digit', timeZone: 'Europe/London' }).format(moment(text));

/** The country's name from its two letters. */
export const country = (code) => {
  try {
    return kept(Intl.DisplayNames, { type: 'region' }).of(code);
  } catch {
    return code;
  }
};

/** A sheet of paper by the name of its size. */
export const SHEETS = { a4: 'A4', letter: 'Letter' };
