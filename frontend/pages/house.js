// A dealer's own house: what his offers bear, and what his own programs may ask.
import { html } from '../html.js';
import { t } from '../state/language.js';
import { RetailTerms } from '../components/retail-terms/retail-terms.js';

export const House = () => html`<div class="work house"><h1>${t('house.title')}</h1><p class="quiet">${t('house.lead')}</p><${RetailTerms} /></div>`;
