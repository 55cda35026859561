// What a dealer may owe for shells that have left his maker's house: from a day on, by the manager, with the reason.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may, today } from '../../state/session.js';
import { day, money } from '../../format.js';
import { readAmountOrNone } from '../../state/amounts.js';
import { errorOf, useSending } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { AmountField } from '../amount-field/amount-field.js';
import { TextField } from '../field/field.js';
import { Folded } from '../folded/folded.js';
import { Notice } from '../notice/notice.js';

const Give = ({ dealer, currency, onDone }) => {
  const [limit, on, why] = [useSignal(''), useSignal(today()), useSignal('')];
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const minor = readAmountOrNone(limit.value, currency);
    if (minor === null) return (problem.value = { title: t('amount.not-read') });
    const after = await send(`/api/dealers/${dealer}/credit`, { limit: minor, currency, day: on.value, why: why.value });
    if (after) onDone(after);
  };
  return html`<form class="money-form" onSubmit=${press}><p class="money-form__lead quiet">${t('credit-line.lead')}</p>
    <${AmountField} label=${t('credit-line.limit', { currency })} currency=${currency} none=${true} required value=${limit.value} onWrite=${(text) => (limit.value = text)} />
    <${TextField} label=${t('credit-line.day')} type="date" required value=${on.value} onWrite=${(text) => (on.value = text)} />
    <${TextField} class="field--wide" label=${t('credit-line.why')} required maxlength="200" autocomplete="off" value=${why.value} error=${errorOf(problem, 'why')} onWrite=${(text) => (why.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('credit-line.give')}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const holds = (credits, currency) => credits.filter((one) => one.currency === currency && one.day <= today()).at(-1);

export const DealerCredit = ({ dealer, currency }) => {
  const { body } = useReading(may('see-dealer-credit') ? `/api/dealers/${dealer}/credit` : null);
  if (!body.value) return null;
  const held = holds(body.value.credits, currency);
  return html`<p>${held?.limit ? t('credit-line.now', { limit: money(held.limit, currency), day: day(held.day), by: held.by_name, why: held.why }) : t('credit-line.none')}</p>
    ${may('give-dealer-credit') && html`<${Folded} label=${t('credit-line.change')}>${(close) => html`<${Give} dealer=${dealer} currency=${currency} onDone=${(after) => ((body.value = after), close())} />`}<//>`}`;
};
