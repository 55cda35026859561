// The rule book to read and search: every rule with its reason, every option with its choices, every price list.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { book } from '../state/book.js';
import { may } from '../state/session.js';
import { get } from '../api.js';
import { money } from '../format.js';
import { TextField } from '../components/field/field.js';
import { Proof } from '../components/proof/proof.js';
import { StandardShells } from '../components/standard-shells/standard-shells.js';
import { Against } from '../components/against/against.js';

const textOf = (thing) => [thing.id, say(thing.label), say(thing.title), say(thing.reason), ...(thing.choices ?? []).map((choice) => say(choice.label))].join(' ').toLowerCase();
const matching = (rows, q) => rows.filter((row) => q.toLowerCase().split(/\s+/).every((word) => textOf(row).includes(word)));

const kindsOf = (rule) => [rule.kinds].flat().map((kind) => t(`kind.${kind}`)).join(', ');

const Rule = ({ rule }) => html`<tr><th scope="row" class="id">${rule.id}</th><td>${kindsOf(rule)}</td><td>${say(rule.title)}</td><td>${say(rule.reason)}</td></tr>`;
const Option = ({ option }) => html`<tr><th scope="row">${say(option.label)}</th><td>${option.choices.map((choice) => html`<span class=${`book__choice ${choice.lost ? 'is-lost' : ''}`} key=${choice.id}>${say(choice.label)}${choice.lost ? ` (${t('book.lost')})` : ''}</span>`)}</td></tr>`;

const Part = ({ title, rows, id, children }) => html`<section class="card" aria-labelledby=${id}><h2 id=${id}>${title} <small>${rows.length}</small></h2>
  ${rows.length ? html`<div class="scrolls" tabindex="0" role="group" aria-labelledby=${id}>${children}</div>` : html`<p class="quiet">${t('work.nothing')}</p>`}</section>`;

const Rules = ({ rows }) => html`<${Part} id="rules" title=${t('book.rules')} rows=${rows}><table class="ruled">
  <thead><tr><th scope="col">${t('book.id')}</th><th scope="col">${t('book.kind')}</th><th scope="col">${t('book.what')}</th><th scope="col">${t('book.reason')}</th></tr></thead>
  <tbody>${rows.map((rule) => html`<${Rule} key=${rule.id} rule=${rule} />`)}</tbody></table><//>`;
const Options = ({ rows }) => html`<${Part} id="options" title=${t('book.options')} rows=${rows}><table class="ruled">
  <thead><tr><th scope="col">${t('book.option')}</th><th scope="col">${t('book.choices')}</th></tr></thead>
  <tbody>${rows.map((option) => html`<${Option} key=${option.id} option=${option} />`)}</tbody></table><//>`;

/** What the lists say, for the office alone; null until it is there. */
const usePrices = (number) => {
  const held = useSignal(null);
  useEffect(() => void (may('see-price-lists') && get(`/api/books/${number}/prices`).then(({ body }) => (held.value = body), () => {})), [number]);
  return held.value;
};

const amountOn = (row, list) => (row.amounts[list.id] === null ? t('price.not-priced') : money(row.amounts[list.id], list.currency));
const categoryOf = (id) => say(book.value.categories.find((category) => category.id === id)?.label) || id;

const PriceRow = ({ row, lists }) => html`<tr><th scope="row">${say(row.label)}${row.unit ? html` <small>${say(row.unit)}</small>` : ''}</th><td>${categoryOf(row.category)}</td>
  ${lists.map((list) => html`<td key=${list.id} class=${`amount ${row.amounts[list.id] === null ? 'quiet' : ''}`}>${amountOn(row, list)}</td>`)}</tr>`;

const Prices = ({ prices, q }) => {
  const rows = matching([...prices.lines, ...prices.extras], q);
  return html`<${Part} id="prices" title=${t('book.prices')} rows=${rows}><table class="ruled ruled--amounts">
    <thead><tr><th scope="col">${t('book.price-line')}</th><th scope="col">${t('book.category')}</th>${prices.lists.map((list) => html`<th key=${list.id} scope="col" class="amount">${t('book.amount', { list: list.id })}</th>`)}</tr></thead>
    <tbody>${rows.map((row) => html`<${PriceRow} key=${row.id} row=${row} lists=${prices.lists} />`)}</tbody></table><//>`;
};

/** For the office alone: what the book proves to be. */
const Proved = ({ number }) => html`<${Proof} number=${number} /><${StandardShells} number=${number} /><${Against} number=${number} />`;

export const Book = () => {
  const prices = usePrices(book.value.number);
  const q = useSignal('');
  return html`<div class="work"><h1>${t('book.heading', { number: book.value.number })}</h1><p class="quiet">${say(book.value.title)}</p>
    ${may('see-proof') && html`<${Proved} number=${book.value.number} />`}
    <${TextField} label=${t('book.find')} hint=${t('book.find-hint')} type="search" value=${q.value} onWrite=${(text) => (q.value = text)} />
    <${Rules} rows=${matching(book.value.rules, q.value)} /><${Options} rows=${matching(book.value.options, q.value)} />
    ${prices && html`<${Prices} prices=${prices} q=${q.value} />`}</div>`;
};
