// The papers of a revision: language by size, each a link that opens the PDF as it is stored.
import { html } from '../../html.js';
import { t } from '../../state/language.js';

const KINDS = [['en', 'a4'], ['de', 'a4'], ['en', 'letter'], ['de', 'letter']];
const LANGUAGE = { en: 'English', de: 'Deutsch' };
const SIZE = { a4: 'A4', letter: 'Letter' };

export const Papers = ({ number, letter, draft = false }) => html`<ul class="papers">
  ${KINDS.map(([language, size]) => html`<li key=${language + size}>
    <a class="paper" target="_blank" rel="noopener" href=${`/api/quotations/${number}/revisions/${letter}/paper?language=${language}&size=${size}`}>
      <span class="paper__sheet" aria-hidden="true">PDF</span>
      <span><b>${t('papers.quotation')} ${letter}</b><br />${LANGUAGE[language]}, ${SIZE[size]}${draft ? ` · ${t('papers.draft')}` : ''}</span></a></li>`)}
</ul>`;
