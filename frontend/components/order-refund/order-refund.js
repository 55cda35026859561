// The refund worksheet: what a person decided by and what comes of it. It proposes nothing to keep, and pays nothing back.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { ask, Refusal } from '../../api.js';
import { money } from '../../format.js';
import { readAmountOrNone } from '../../state/amounts.js';
import { useSending } from '../../state/sending.js';
import { AmountField } from '../amount-field/amount-field.js';
import { TextArea, TextField, typed } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { Folded } from '../folded/folded.js';

const PAUSE = 250;

const useSum = (order, kept) => {
  const found = useSignal(null);
  useEffect(() => {
    const minor = readAmountOrNone(kept, order.currency);
    if (minor === null) return void (found.value = null);
    const timer = setTimeout(() => ask('POST', `/api/orders/${order.number}/refund-sum`, { body: { kept: minor } }).then(({ body }) => (found.value = { body }), (error) => (found.value = { problem: error instanceof Refusal ? error.problem : null })), PAUSE);
    return () => clearTimeout(timer);
  }, [kept]);
  return found;
};

const Rows = ({ name, rows, currency }) => rows.map((row, at) => html`<tr key=${at}><th scope="row">${t(`refund.${name}`)}</th><td class="amount">${money(row.net, currency)}</td><td class="amount">${money(row.tax, currency)}</td><td class="amount">${money(row.with_tax, currency)}</td></tr>`);

export const RefundSum = ({ sum, currency }) => html`<table class="ruled" aria-live="polite"><thead><tr><th></th>${['before-tax', 'tax', 'with-tax'].map((one) => html`<th key=${one} class="amount" scope="col">${t(`refund.${one}`)}</th>`)}</tr></thead>
  <tbody>${['received', 'refunded', 'kept'].map((name) => html`<${Rows} key=${name} name=${name} rows=${sum[name]} currency=${currency} />`)}</tbody></table>`;

const Form = ({ order, onOrder, onDone }) => {
  const [kept, why, stage, hours, resale] = [useSignal(''), useSignal(''), useSignal(''), useSignal(''), useSignal('')];
  const { send, problem, busy } = useSending();
  const found = useSum(order, kept.value);
  const press = async (event) => {
    event.preventDefault();
    const minor = readAmountOrNone(kept.value, order.currency);
    if (minor === null) return (problem.value = { title: t('amount.not-read') });
    const after = await send(`/api/orders/${order.number}/refund-worksheets`, { kept: minor, why: why.value, stage: stage.value, hours: hours.value, resale: resale.value });
    if (!after) return;
    onDone();
    onOrder(after);
  };
  const refusal = problem.value ?? found.value?.problem;
  return html`<form class="money-form" onSubmit=${press}>
    <${TextField} label=${t('refund.stage')} autocomplete="off" ...${typed(stage)} /><${TextField} label=${t('refund.hours')} autocomplete="off" ...${typed(hours)} />
    <${TextField} label=${t('refund.resale')} autocomplete="off" ...${typed(resale)} />
    <${AmountField} label=${t('refund.keep', { currency: order.currency })} hint=${t('refund.keep-hint')} currency=${order.currency} none=${true} required ...${typed(kept)} />
    <${TextArea} class="field--wide" label=${t('refund.why')} required rows="2" ...${typed(why)} />
    ${found.value?.body && html`<div class="field--wide"><${RefundSum} sum=${found.value.body} currency=${order.currency} /></div>`}
    <button class="button button--heavy" disabled=${busy.value}>${t('refund.write')}</button>
    ${refusal && html`<${Notice} problem=${refusal} />`}</form>`;
};

/** The manager's alone, and only where something was billed in advance and the whole is not billed yet. */
export const OrderRefund = ({ order, onOrder }) => {
  const billed = order.documents.map(({ kind }) => kind);
  if (!may('refund') || !billed.includes('deposit') || billed.includes('balance')) return null;
  return html`<section class="card" aria-labelledby="refund-title"><h2 id="refund-title">${t('refund.title')}</h2><p class="quiet">${t('refund.lead')}</p>
    <${Folded} label=${t('refund.open')}>${(close) => html`<${Form} order=${order} onOrder=${onOrder} onDone=${close} />`}<//></section>`;
};
