// For an address that leads nowhere, and for work that is another's: the same words for both.
import { html } from '../html.js';
import { t } from '../state/language.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';

export const NotFound = () => html`<div class="work not-found"><h1>${t('not-found.title')}</h1><p>${t('not-found.repair')}</p>
  <p><${Link} to="/" class="button">${t('nav.desk')}<//></p></div>`;

/** In place of a page that is not there: not yet, not at all, or for what `problem` says. */
export const Missing = ({ problem }) => {
  if (!problem) return html`<p class="quiet waiting">${t('waiting')}</p>`;
  return problem.status === 404 ? html`<${NotFound} />` : html`<${Notice} problem=${problem} />`;
};
