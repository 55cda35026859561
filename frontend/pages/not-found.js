// For an address that leads nowhere, and for work that is another's: the same words for both.
import { html } from '../html.js';
import { t } from '../state/language.js';
import { Link } from '../components/link/link.js';

export const NotFound = () => html`<div class="work not-found"><h1>${t('not-found.title')}</h1><p>${t('not-found.repair')}</p>
  <p><${Link} to="/" class="button">${t('nav.desk')}<//></p></div>`;
