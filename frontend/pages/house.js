// A dealer's own house: what his offers bear, and what his own programs may ask. The manager finds every dealer's programs here.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { may } from '../state/session.js';
import { RetailTerms } from '../components/retail-terms/retail-terms.js';
import { Tokens } from '../components/tokens/tokens.js';

export const House = () => {
  // What stands below waits for what stands above, so that nothing moves under the reader.
  const ready = useSignal(!may('offer'));
  return html`<div class="work house"><h1>${t(may('offer') ? 'house.title' : 'house.title-manager')}</h1>
  ${may('offer') && html`<p class="quiet">${t('house.lead')}</p><${RetailTerms} onReady=${() => (ready.value = true)} />`}${may('see-tokens') && ready.value && html`<${Tokens} />`}</div>`;
};
