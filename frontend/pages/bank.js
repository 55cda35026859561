// Where the firm is paid: what its papers print. A change takes two managers and a call.
import { html } from '../html.js';
import { t } from '../state/language.js';
import { BankDetails } from '../components/bank-details/bank-details.js';

export const Bank = () => html`<div class="work"><h1>${t('bank.firm')}</h1><${BankDetails} path="/api/bank-details" lead=${t('bank.firm-lead')} /></div>`;
