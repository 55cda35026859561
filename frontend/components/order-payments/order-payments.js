// What was paid, as it came, and the forms to record it. Nothing is converted: of another currency people agree, and say so.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may, today } from '../../state/session.js';
import { day, dayAndTime, exact, money } from '../../format.js';
import { decimal, readAmount } from '../../state/amounts.js';
import { useSending } from '../../state/sending.js';
import { AmountField } from '../amount-field/amount-field.js';
import { SelectField, TextField, typed } from '../field/field.js';
import { Refused } from '../falling/falling.js';
import { Folded } from '../folded/folded.js';
import { WriteBill } from '../write-bill/write-bill.js';

const MEANS = ['bank-transfer', 'card', 'cash', 'cheque', 'other'];

const Record = ({ order, onOrder, onDone }) => {
  const [amount, currency, on, means, note, direction] = [useSignal(''), useSignal(order.currency), useSignal(today()), useSignal('bank-transfer'), useSignal(''), useSignal('received')];
  const { send, problem, busy } = useSending();
  const press = async (event, token = '') => {
    event?.preventDefault();
    const minor = readAmount(amount.value, currency.value);
    if (minor === null) return (problem.value = { title: t('amount.not-read') });
    const body = { direction: direction.value, amount: minor, currency: currency.value, day: on.value, means: means.value, note: note.value, gives_back: token };
    const after = await send(`/api/orders/${order.number}/payments`, body);
    if (!after) return;
    onDone();
    onOrder(after);
  };
  return html`<form class="money-form" onSubmit=${press}>
    <${SelectField} label=${t('payment.direction')} options=${['received', 'paid-back'].map((one) => [one, t(`payment.${one}`)])} ...${typed(direction)} />
    <${AmountField} label=${t('payment.amount')} currency=${currency.value} required ...${typed(amount)} />
    <${TextField} label=${t('payment.currency')} hint=${t('payment.currency-hint')} required maxlength="3" autocomplete="off" value=${currency.value} onWrite=${(text) => (currency.value = text.toUpperCase())} />
    <${TextField} label=${t('payment.day')} type="date" required max=${today()} ...${typed(on)} />
    <${SelectField} label=${t('payment.means')} options=${MEANS.map((one) => [one, t(`payment.means-${one}`)])} ...${typed(means)} />
    <${TextField} label=${t('payment.note')} autocomplete="off" ...${typed(note)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('payment.record-now')}</button>
    ${problem.value && html`<${Refused} number=${order.number} problem=${problem.value} busy=${busy.value} onAgree=${(token) => press(null, token)} />`}</form>`;
};

const Agree = ({ order, payment, onOrder, onDone }) => {
  const [amount, rate, on, by] = [useSignal(''), useSignal(''), useSignal(payment.day), useSignal('')];
  const { send, problem, busy } = useSending();
  const press = async (event, token = '') => {
    event?.preventDefault();
    const minor = readAmount(amount.value, order.currency);
    if (minor === null) return (problem.value = { title: t('amount.not-read') });
    const after = await send(`/api/orders/${order.number}/payments/${payment.id}/agreement`, { amount: minor, rate: decimal(rate.value), rate_day: on.value, agreed_by: by.value, gives_back: token });
    if (!after) return;
    onDone();
    onOrder(after);
  };
  return html`<form class="money-form" onSubmit=${press}>
    <${AmountField} label=${t('payment.agreed-amount', { currency: order.currency })} currency=${order.currency} required ...${typed(amount)} />
    <${TextField} label=${t('payment.rate')} inputmode="decimal" required autocomplete="off" ...${typed(rate)} />
    <${TextField} label=${t('payment.rate-day')} type="date" required max=${today()} ...${typed(on)} />
    <${TextField} label=${t('payment.agreed-by')} required autocomplete="off" ...${typed(by)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('payment.agree-now')}</button>
    ${problem.value && html`<${Refused} number=${order.number} problem=${problem.value} busy=${busy.value} onAgree=${(token) => press(null, token)} />`}</form>`;
};

const Mistake = ({ order, payment, onOrder, onDone }) => {
  const why = useSignal('');
  const { send, problem, busy } = useSending();
  const press = async (event, token = '') => {
    event?.preventDefault();
    const after = await send(`/api/orders/${order.number}/payments/${payment.id}/mistake`, { why: why.value, gives_back: token });
    if (!after) return;
    onDone();
    onOrder(after);
  };
  return html`<form class="money-form" onSubmit=${press}><${TextField} label=${t('payment.mistake-why')} required autocomplete="off" ...${typed(why)} />
    <button class="button" disabled=${busy.value}>${t('payment.mistake-now')}</button>${problem.value && html`<${Refused} number=${order.number} problem=${problem.value} busy=${busy.value} onAgree=${(token) => press(null, token)} />`}</form>`;
};

const Bill = ({ order, payment, onOrder }) =>
  html`<${WriteBill} order=${order} path=${`/api/orders/${order.number}/deposit-invoices`} body=${{ payment: payment.id }} day=${payment.day} label=${t('payment.bill')} onOrder=${onOrder} />`;

const Acts = ({ order, payment, onOrder }) => {
  if (payment.mistake || payment.document || !may('take-payments')) return null;
  const foreign = payment.currency !== order.currency;
  const billed = order.documents.some(({ kind, credited_by: by }) => kind === 'balance' && !by.length);
  return html`<div class="acts">
    ${foreign && html`<${Folded} label=${t(payment.agreement ? 'payment.agree-again' : 'payment.agree')}>${(close) => html`<${Agree} order=${order} payment=${payment} onOrder=${onOrder} onDone=${close} />`}<//>`}
    ${payment.direction === 'received' && payment.counts_for !== null && !billed && html`<${Bill} order=${order} payment=${payment} onOrder=${onOrder} />`}
    <${Folded} label=${t('payment.mistake')}>${(close) => html`<${Mistake} order=${order} payment=${payment} onOrder=${onOrder} onDone=${close} />`}<//></div>`;
};

const Said = ({ order, payment }) => html`${payment.agreement && html`<p>${t('payment.agreed', { amount: money(payment.agreement.amount, order.currency), rate: exact(payment.agreement.rate), day: day(payment.agreement.rate_day), by: payment.agreement.agreed_by })}</p>`}
  ${payment.says.map((words) => html`<p key=${words} class="payment__says">${words}</p>`)}
  ${payment.mistake && html`<p class="payment__says">${t('payment.was-mistake', { why: payment.mistake })}</p>`}`;

const Payment = ({ order, payment, onOrder }) => html`<li class=${`payment${payment.mistake ? ' payment--mistake' : ''}`}>
  <p class="payment__head"><b class="amount">${payment.direction === 'paid-back' ? '−' : ''}${money(payment.amount, payment.currency)}</b>
    <span>${t(`payment.${payment.direction}`)}, ${day(payment.day)}, ${t(`payment.means-${payment.means}`)}</span></p>
  <p class="quiet">${t('payment.recorded', { at: dayAndTime(payment.at), by: payment.by_name })}${payment.document ? ` · ${t('payment.billed', { document: payment.document })}` : ''}${payment.note ? ` · ${payment.note}` : ''}</p>
  <${Said} order=${order} payment=${payment} /><${Acts} order=${order} payment=${payment} onOrder=${onOrder} /></li>`;

export const OrderPayments = ({ order, onOrder }) => html`<section class="card" aria-labelledby="payments-title"><h2 id="payments-title">${t('payment.title')}</h2>
  ${order.payments.length ? html`<ul class="payments">${order.payments.map((payment) => html`<${Payment} key=${payment.id} order=${order} payment=${payment} onOrder=${onOrder} />`)}</ul>` : html`<p class="quiet">${t('payment.none')}</p>`}
  ${may('take-payments') && html`<${Folded} heavy=${true} label=${t('payment.record')}>${(close) => html`<${Record} order=${order} onOrder=${onOrder} onDone=${close} />`}<//>`}</section>`;
