// The papers of a document in a row, each by its language and size.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { SHEETS } from '../../format.js';

/** In their own words, whoever reads: it is the paper's language. */
const LANGUAGE = { en: 'English', de: 'Deutsch' };

const nameOf = ({ language, size }) => `${LANGUAGE[language]}, ${SHEETS[size]}`;

/** `of`: what the papers are, for whom the row alone doesn't say it. */
export const SheetLinks = ({ papers, of }) =>
  papers.map((one) => html`<a key=${one.url} target="_blank" rel="noopener" aria-label=${of && `${of}, ${nameOf(one)}`} href=${one.url}>${nameOf(one)}${one.own ? ` (${t('document.own')})` : ''}</a>`);
