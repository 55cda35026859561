// What each dealer is quoted from and what is taken off by category; every change with who and why.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { put } from '../../api.js';
import { percent } from '../../format.js';
import { errorOf, problemOf } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { decimal } from '../../state/amounts.js';
import { DealerCredit } from '../dealer-credit/dealer-credit.js';
import { Folded } from '../folded/folded.js';
import { SelectField, TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { Entries } from '../history/history.js';

const Change = ({ one, lists, categories, onDone }) => {
  const [typed, why] = [useSignal({ price_list: one.price_list, ...one.discounts }), useSignal('')];
  const [problem, busy] = [useSignal(null), useSignal(false)];
  const write = (name) => (text) => (typed.value = { ...typed.value, [name]: text });
  const percents = () => Object.fromEntries(categories.map(({ id }) => [id, decimal(typed.value[id] ?? '') || '0']));
  const press = async (event) => {
    event.preventDefault();
    busy.value = true;
    const body = { price_list: typed.value.price_list, discounts: percents(), why: why.value };
    await put(`/api/trade-terms/${one.dealer}`, body, { etag: `"${one.version}"` }).then(onDone, (error) => (problem.value = problemOf(error)));
    busy.value = false;
  };
  return html`<form class="money-form" onSubmit=${press}><p class="money-form__lead quiet">${t('terms.lead-change')}</p>
    <${SelectField} label=${t('terms.list')} value=${typed.value.price_list} options=${lists.map((id) => [id, id])} error=${errorOf(problem, 'price_list')} onWrite=${write('price_list')} />
    ${categories.map(({ id, label }) => html`<${TextField} key=${id} label=${t('terms.percent', { category: `${id} ${say(label)}` })} inputmode="decimal" maxlength="6" autocomplete="off" value=${typed.value[id] ?? '0'} error=${errorOf(problem, `discounts.${id}`)} onWrite=${write(id)} />`)}
    <${TextField} class="field--wide" label=${t('terms.why')} required maxlength="200" autocomplete="off" value=${why.value} error=${errorOf(problem, 'why')} onWrite=${(text) => (why.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('terms.change-now')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const History = ({ history }) => html`<details class="more"><summary>${t('terms.history', { count: history.length })}</summary>
  <${Entries} history=${history} /></details>`;

const Dealer = ({ one, read, onDone }) => html`<li class="terms"><h3>${one.name}</h3>
  <p>${t('terms.quoted', { list: one.price_list })} · ${read.categories.map(({ id, label }) => `${id} ${say(label)} ${percent(one.discounts[id] ?? '0')}`).join(' · ')}</p>
  <${Folded} label=${t('terms.change')}>${(shut) => html`<${Change} key=${one.version} one=${one} lists=${read.lists} categories=${read.categories} onDone=${() => (shut(), onDone())} />`}<//>
  <${DealerCredit} dealer=${one.dealer} currency=${one.price_list} />
  ${one.history.length > 0 && html`<${History} history=${one.history} />`}</li>`;

export const TradeTerms = () => {
  const { body, problem, again } = useReading('/api/trade-terms');
  return html`<section aria-labelledby="terms"><h2 id="terms">${t('terms.title')}</h2><p class="quiet">${t('terms.lead')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${body.value && html`<ul class="terms-list">${body.value.dealers.map((one) => html`<${Dealer} key=${one.dealer} one=${one} read=${body.value} onDone=${again} />`)}</ul>`}</section>`;
};
