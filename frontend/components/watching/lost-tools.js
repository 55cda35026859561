// Each lost tool: what it cost the firm in refusals, and after how many shells remaking it would pay back.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { put } from '../../api.js';
import { day, money } from '../../format.js';
import { readAmount, readAmountOrNone } from '../../state/amounts.js';
import { problemOf } from '../../state/sending.js';
import { AmountField } from '../amount-field/amount-field.js';
import { SelectField } from '../field/field.js';
import { Folded } from '../folded/folded.js';
import { Notice } from '../notice/notice.js';
import { RefusedRows } from './refusals.js';
import { Sums } from './sums.js';

const Assume = ({ tool, currencies, onDone }) => {
  const said = tool.remaking;
  const [cost, margin, currency] = [useSignal(''), useSignal(''), useSignal(said?.currency ?? currencies[0])];
  const [problem, busy] = [useSignal(null), useSignal(false)];
  const press = async (event) => {
    event.preventDefault();
    const body = { cost: readAmountOrNone(cost.value, currency.value), margin: readAmount(margin.value, currency.value), currency: currency.value };
    if (body.cost === null || body.margin === null) return (problem.value = { title: t('watching.not-read') });
    busy.value = true;
    await put(`/api/watching/tools/${tool.id}`, body).then(onDone, (error) => (problem.value = problemOf(error)));
    busy.value = false;
    return null;
  };
  return html`<form class="money-form" onSubmit=${press}><p class="money-form__lead quiet">${t('watching.assume-lead')}</p>
    <${SelectField} label=${t('watching.currency')} value=${currency.value} options=${currencies.map((one) => [one, one])} onWrite=${(text) => (currency.value = text)} />
    <${AmountField} none label=${t('watching.cost')} required currency=${currency.value} value=${cost.value} onWrite=${(text) => (cost.value = text)} />
    <${AmountField} label=${t('watching.margin')} required currency=${currency.value} value=${margin.value} onWrite=${(text) => (margin.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('watching.assume-now')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Pays = ({ said }) => html`<p class="lost__pays"><b>${t(said.pays_back_after === 1 ? 'watching.pays-one' : 'watching.pays', { count: said.pays_back_after })}</b>
  <small>${t('watching.assumed', { cost: money(said.cost, said.currency), margin: money(said.margin, said.currency), by: said.by_name, day: day(said.at) })}</small></p>`;

const named = (tool) => (one) => one.causes.some((cause) => cause.includes(tool.id) || cause.includes(tool.rule));

const Lost = ({ tool, read, onDone }) => html`<li class="lost"><h3>${say(tool.label)}</h3>
  <p>${t('watching.lost-refused', { enquiries: tool.enquiries, shells: tool.shells })} ${tool.nets.length > 0 && html`${t('watching.nearest')}: <span class="sums"><${Sums} nets=${tool.nets} /></span>`}${tool.part && ` ${t('watching.instead', { count: tool.instead, part: tool.part })}`}</p>
  ${tool.remaking && html`<${Pays} said=${tool.remaking} />`}
  <div class="acts">${tool.enquiries > 0 && html`<${Folded} label=${t('watching.show-rows')}>${() => html`<${RefusedRows} rows=${read.refused.filter(named(tool))} />`}<//>`}
  <${Folded} label=${t(tool.remaking ? 'watching.assume-anew' : 'watching.assume')}>${(shut) => html`<${Assume} tool=${tool} currencies=${read.currencies} onDone=${() => (shut(), onDone())} />`}<//></div></li>`;

export const LostTools = ({ read, onDone }) => html`<section class="card" aria-labelledby="lost"><h2 id="lost">${t('watching.lost')}</h2><p class="quiet">${t('watching.lost-lead')}</p>
  ${read.tools.length ? html`<ul class="lost-list">${read.tools.map((tool) => html`<${Lost} key=${tool.id} tool=${tool} read=${read} onDone=${onDone} />`)}</ul>` : html`<p>${t('watching.none-lost')}</p>`}</section>`;
