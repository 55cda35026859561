// An amount as somebody types it → whole minor units. What could be meant in two ways is not taken: 4,800 is no amount here.
import { language } from './language.js';

const LOCALES = { en: 'en-GB', de: 'de-DE' };

/** Digits of the currency's minor unit, by ISO 4217; null for what is no currency. */
export const digitsOf = (currency) => {
  try {
    return new Intl.NumberFormat(LOCALES[language.value], { style: 'currency', currency }).resolvedOptions().maximumFractionDigits;
  } catch {
    return null;
  }
};

const GROUPED = /^\d{1,3}(?:([.,'’])\d{3})(?:\1\d{3})*$/;

/** Minor units, or null: 4800 · 4800.00 · 4,800.00 · 4.800,00 · 4 800,00. */
export const readAmount = (text, currency) => {
  const digits = digitsOf(currency);
  const plain = text.replace(/\s/g, '');
  if (digits === null || !plain) return null;
  const parts = digits ? new RegExp(`^(.*?)(?:([.,])(\\d{${digits}}))?$`).exec(plain) : [plain, plain];
  const [, whole, mark, cents] = parts;
  const grouped = GROUPED.exec(whole);
  if (!/^\d+$/.test(whole) && !(grouped && mark && grouped[1] !== mark)) return null;
  const minor = BigInt(whole.replace(/\D/g, '') + (cents ?? '0'.repeat(digits)));
  return minor > 0n && minor <= 1_000_000_000_000n ? Number(minor) : null;
};

/** The same where nought is an answer, too. */
export const readAmountOrNone = (text, currency) => (/^0+([.,]0+)?$/.test(text.trim()) ? 0 : readAmount(text, currency));

/** A rate or a percentage as it is sent: 7,5 as it is written in German is 7.5 to the server. */
export const decimal = (text) => text.trim().replace(',', '.');
