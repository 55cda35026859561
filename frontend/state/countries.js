// The countries that a form offers, as the server names and orders them for this reader.
import { signal, effect, untracked } from '@preact/signals';
import { get } from '../api.js';
import { language } from './language.js';
import { may, sight, standing } from './session.js';

const offered = signal([]);

const fetchCountries = () =>
  get('/api/countries').then(
    ({ body }) => (offered.value = body.countries),
    () => null,
  );

/** Asked for at sign-in and again whenever the language changes. Returns what stops it. */
export const followCountries = () =>
  effect(() => {
    [language.value, sight.value];
    if (standing.value === 'in' && may('read-quotations')) untracked(fetchCountries);
  });

/** [[code, name]]: the usual ones first. What stands now is always among them. */
export const countryChoices = (now) => {
  const rows = offered.value.map(({ code, name }) => [code, name]);
  return rows.some(([code]) => code === now) ? rows : [[now, now], ...rows];
};

export const countryName = (code) => offered.value.find((row) => row.code === code)?.name ?? code;

/** What is paid with there (ISO 4217), as far as it is known. */
export const currencyOf = (code) => offered.value.find((row) => row.code === code)?.currency ?? null;
