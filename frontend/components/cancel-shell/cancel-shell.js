// Cancelling one shell: a worksheet, not a button. What is kept a person says; here stands what he decides by.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { may } from '../../state/session.js';
import { money } from '../../format.js';
import { readAmountOrNone } from '../../state/amounts.js';
import { useAnswer, useReading } from '../../state/reading.js';
import { errorOf, useSending } from '../../state/sending.js';
import { isOver } from '../../state/shells.js';
import { AmountField } from '../amount-field/amount-field.js';
import { TextArea, TextField, typed } from '../field/field.js';
import { Folded } from '../folded/folded.js';
import { Notice } from '../notice/notice.js';
import { RefundSum } from '../order-refund/order-refund.js';

const PAUSE = 250;

const Facts = ({ found }) => html`<p>${t('cancel-shell.stage')}: <b>${found.stage ? say(found.stage) : t('cancel-shell.not-begun')}</b><br />
  ${t('cancel-shell.received')}: <b>${found.received === null ? '–' : money(found.received, found.currency)}</b></p><p class="payment__says" role="note">${found.says}</p>`;

/** What comes of keeping so much, as the server works it out; nothing while nothing was typed. */
const Sum = ({ order, currency, kept }) => {
  const sum = useAnswer(`/api/orders/${order}/refund-sum`, kept === null ? null : JSON.stringify({ kept }), { pause: PAUSE });
  return sum && html`<div class="field--wide"><${RefundSum} sum=${sum} currency=${currency} /></div>`;
};

const Form = ({ shell, found, onCancelled }) => {
  const [kept, why, hours, resale] = [useSignal(''), useSignal(''), useSignal(''), useSignal('')];
  const { send, problem, busy } = useSending();
  const minor = kept.value.trim() ? readAmountOrNone(kept.value, found.currency) : null;
  const press = async (event) => {
    event.preventDefault();
    if (found.refundable && minor === null) return (problem.value = { title: t('amount.not-read') });
    const after = await send(`/api/shells/${shell.id}/cancellation`, { why: why.value, ...(found.refundable ? { kept: minor, hours: hours.value, resale: resale.value } : {}) });
    if (after) onCancelled();
  };
  return html`<form class="money-form" onSubmit=${press}>
    ${found.refundable && html`<${TextField} label=${t('refund.hours')} autocomplete="off" ...${typed(hours)} /><${TextField} label=${t('refund.resale')} autocomplete="off" ...${typed(resale)} />
      <${AmountField} label=${t('refund.keep', { currency: found.currency })} hint=${t('refund.keep-hint')} currency=${found.currency} none=${true} required error=${errorOf(problem, 'kept')} ...${typed(kept)} />`}
    <${TextArea} class="field--wide" label=${t('refund.why')} required rows="2" error=${errorOf(problem, 'why')} ...${typed(why)} />
    ${found.refundable && html`<${Sum} order=${found.order} currency=${found.currency} kept=${minor} />`}
    <button class="button button--heavy" disabled=${busy.value}>${t(found.refundable ? 'cancel-shell.do-and-write' : 'cancel-shell.do')}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Opened = ({ shell, onCancelled }) => {
  const { body, problem } = useReading(`/api/shells/${shell.id}/cancellation`);
  if (problem.value) return html`<${Notice} problem=${problem.value} />`;
  return body.value && html`<${Facts} found=${body.value} /><${Form} shell=${shell} found=${body.value} onCancelled=${onCancelled} />`;
};

/** The manager's alone, and only while there is something to cancel. */
export const CancelShell = ({ shell, onCancelled }) => may('cancel-shells') && !isOver(shell) && html`<section class="card" aria-labelledby="cancel-title"><h2 id="cancel-title">${t('cancel-shell.title')}</h2>
  <p class="quiet">${t('cancel-shell.lead')}</p><${Folded} label=${t('cancel-shell.open')}>${() => html`<${Opened} shell=${shell} onCancelled=${onCancelled} />`}<//></section>`;
