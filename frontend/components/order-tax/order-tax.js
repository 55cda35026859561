// Where the quotation left the tax to a person: both cases with their reasons, and who decided for which, and why.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { dayAndTime, money } from '../../format.js';
import { useSending } from '../../state/sending.js';
import { TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

const Case = ({ one, chosen, onChoose, currency }) => html`<label class="tax-case"><input type="radio" name="tax-case" value=${one.case} checked=${chosen === one.case} onChange=${() => onChoose(one.case)} />
  <span><b>${t(`tax-case.${one.case}`)}</b>: ${money(one.payable, currency)} (${t('account.deposit')} ${money(one.deposit, currency)})<br /><small>${one.reason}${one.says && html`<br /><b>${one.says}</b>`}</small></span></label>`;

const Form = ({ order, onOrder }) => {
  const [chosen, why] = [useSignal(order.decision?.case ?? ''), useSignal('')];
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/orders/${order.number}/tax-case`, { case: chosen.value, why: why.value });
    if (after) onOrder(after);
  };
  return html`<form onSubmit=${press}><fieldset class="tax-cases"><legend>${t('tax-case.which')}</legend>
      ${order.open_cases.map((one) => html`<${Case} key=${one.case} one=${one} chosen=${chosen.value} onChoose=${(value) => (chosen.value = value)} currency=${order.currency} />`)}</fieldset>
    <${TextField} label=${t('tax-case.why')} hint=${t('tax-case.why-hint')} required autocomplete="off" value=${why.value} onWrite=${(text) => (why.value = text)} />
    <button class="button" disabled=${busy.value || !chosen.value}>${t('tax-case.decide')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

/** A bill that nothing was credited on; the server knows whether it was credited in full. */
const standsOf = ({ kind, credited_by: by }) => ['deposit', 'balance'].includes(kind) && !by.length;

export const OrderTax = ({ order, onOrder }) =>
  order.open_cases.length > 0 &&
  html`<section class="card" aria-labelledby="tax-title"><h2 id="tax-title">${t('tax-case.title')}</h2>
    ${order.decision ? html`<p><b>${t(`tax-case.${order.decision.case}`)}</b>: ${order.decision.why}</p><p class="quiet">${order.decision.by_name}, ${dayAndTime(order.decision.at)}</p>` : html`<p>${t('tax-case.open')}</p>`}
    ${may('decide-tax') && !order.documents.some(standsOf) && html`<${Form} order=${order} onOrder=${onOrder} />`}</section>`;
