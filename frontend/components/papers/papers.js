// The papers of a revision: language by size, each a link that opens the PDF as it is stored.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { pricesShown } from '../../state/session.js';

const KINDS = [['en', 'a4'], ['de', 'a4'], ['en', 'letter'], ['de', 'letter']];
const LANGUAGE = { en: 'English', de: 'Deutsch' };
const SIZE = { a4: 'A4', letter: 'Letter' };

const Links = ({ number, letter, draft }) => html`<ul class="papers">
  ${KINDS.map(([language, size]) => html`<li key=${language + size}>
    <a class="paper" target="_blank" rel="noopener" href=${`/api/quotations/${number}/revisions/${letter}/paper?language=${language}&size=${size}`}>
      <span class="paper__sheet" aria-hidden="true">PDF</span>
      <span><b>${t('papers.quotation')} ${letter}</b><br />${LANGUAGE[language]}, ${SIZE[size]}${draft ? ` · ${t('papers.draft')}` : ''}</span></a></li>`)}
</ul>`;

/** The paper shows prices: while they are hidden, so is it. */
export const Papers = ({ number, letter, draft = false }) =>
  pricesShown.value ? html`<${Links} number=${number} letter=${letter} draft=${draft} />` : html`<p class="quiet">${t('papers.hidden')}</p>`;
