// By how much a deposit may arrive short, for each currency: the manager's word, 0 until he gives it.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { put } from '../../api.js';
import { money } from '../../format.js';
import { readAmountOrNone } from '../../state/amounts.js';
import { problemOf } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { AmountField } from '../amount-field/amount-field.js';
import { Notice } from '../notice/notice.js';

const Row = ({ currency, amount, onTold }) => {
  const [typed, problem] = [useSignal(''), useSignal(null)];
  const taken = ({ body }) => {
    typed.value = '';
    problem.value = null;
    onTold(body);
  };
  const press = async (event) => {
    event.preventDefault();
    const minor = readAmountOrNone(typed.value, currency);
    if (minor === null) return (problem.value = { title: t('amount.not-read') });
    await put(`/api/tolerances/${currency}`, { amount: minor }).then(taken, (error) => (problem.value = problemOf(error)));
  };
  return html`<form class="tolerance" onSubmit=${press}><p>${t('tolerance.now', { currency, amount: money(amount, currency) })}</p>
    <${AmountField} label=${t('tolerance.new', { currency })} currency=${currency} none=${true} required value=${typed.value} onWrite=${(text) => (typed.value = text)} />
    <button class="button">${t('tolerance.set', { currency })}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

export const Tolerances = () => {
  const { body: told } = useReading(may('set-tolerances') && '/api/tolerances');
  if (!told.value) return null;
  return html`<details class="card"><summary>${t('tolerance.title')}</summary><p class="quiet">${t('tolerance.lead')}</p>
    ${told.value.tolerances.map((one) => html`<${Row} key=${one.currency} ...${one} onTold=${(body) => (told.value = body)} />`)}</details>`;
};
