// The rule book to read and search: every rule with its condition and reason, every option, every price list.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { book } from '../state/book.js';
import { may } from '../state/session.js';
import { matching } from '../state/sought.js';
import { useProved } from '../state/proved.js';
import { useReading } from '../state/reading.js';
import { money } from '../format.js';
import { Link } from '../components/link/link.js';
import { TextField } from '../components/field/field.js';
import { Proof } from '../components/proof/proof.js';
import { StandardShells } from '../components/standard-shells/standard-shells.js';
import { Against } from '../components/against/against.js';

const textOf = (thing) => [thing.id, say(thing.label), say(thing.title), say(thing.reason), thing.condition, ...(thing.choices ?? []).map((choice) => say(choice.label))].filter(Boolean).join(' ');

const kindsOf = (rule) => [rule.kinds].flat().map((kind) => t(`kind.${kind}`)).join(', ');

/** On a phone the cells of a row stand below each other, each with its column's name. */
const Cell = ({ of, children, class: extra = '' }) => html`<td class=${extra} data-of=${of}>${children}</td>`;

const Rule = ({ rule }) => html`<tr><th scope="row" class="id">${rule.id} <span class="only-narrow">${say(rule.title)}</span></th>
  <${Cell} of=${t('book.kind')}>${kindsOf(rule)}<//><${Cell} of=${t('book.what')} class="only-wide">${say(rule.title)}<//>
  <${Cell} of=${t('book.condition')}>${rule.condition}<//><${Cell} of=${t('book.reason')}>${say(rule.reason)}<//></tr>`;

const Option = ({ option }) => html`<tr><th scope="row">${say(option.label)}</th><td>${option.choices.map((choice) => html`<span class=${`book__choice ${choice.lost ? 'is-lost' : ''}`} key=${choice.id}>${say(choice.label)}${choice.lost ? ` (${t('book.lost')})` : ''}</span>`)}</td></tr>`;

const isNarrow = () => window.matchMedia('(max-width: 700px)').matches;

/** A part of the book is long: on a phone it opens when pressed, or when something is sought. */
const Part = ({ title, rows, id, sought, children }) => html`<section class="card" aria-labelledby=${id}>
  <details class="part" open=${Boolean(sought) || !isNarrow()}><summary><h2 id=${id}>${title} <small>${rows.length}</small></h2></summary>
  ${rows.length ? html`<div class="scrolls" tabindex="0" role="group" aria-labelledby=${id}>${children}</div>` : html`<p class="quiet">${t('work.nothing')}</p>`}</details></section>`;

const COLUMNS = ['id', 'kind', 'what', 'condition', 'reason'];

const Rules = ({ rows, q }) => html`<${Part} id="rules" sought=${q} title=${t('book.rules')} rows=${rows}><table class="ruled stacks">
  <thead><tr>${COLUMNS.map((column) => html`<th scope="col" key=${column}>${t(`book.${column}`)}</th>`)}</tr></thead>
  <tbody>${rows.map((rule) => html`<${Rule} key=${rule.id} rule=${rule} />`)}</tbody></table><//>`;
const Options = ({ rows, q }) => html`<${Part} id="options" sought=${q} title=${t('book.options')} rows=${rows}><table class="ruled stacks">
  <thead><tr><th scope="col">${t('book.option')}</th><th scope="col">${t('book.choices')}</th></tr></thead>
  <tbody>${rows.map((option) => html`<${Option} key=${option.id} option=${option} />`)}</tbody></table><//>`;

/** What the lists say, for the office alone; null until it is there. */
const usePrices = (number) => useReading(may('see-price-lists') && `/api/books/${number}/prices`).body.value;

/** The rules with the condition of each, in the reader's language. */
const useRules = (number) => {
  const conditions = useProved(`/api/books/${number}/conditions`).body?.rules ?? {};
  return book.value.rules.map((rule) => ({ ...rule, condition: conditions[rule.id] ?? '' }));
};

const amountOn = (row, list) => (row.amounts[list.id] === null ? t('price.not-priced') : money(row.amounts[list.id], list.currency));
const categoryOf = (id) => say(book.value.categories.find((category) => category.id === id)?.label) || id;
const amountsOf = (row) => Object.values(row.amounts).filter((amount) => amount !== null).map(Math.abs);

const PriceRow = ({ row, lists }) => html`<tr><th scope="row">${say(row.label)}${row.unit ? html` <small>${say(row.unit)}</small>` : ''}</th>
  <${Cell} of=${t('book.category')}>${categoryOf(row.category)}<//>
  ${lists.map((list) => html`<${Cell} key=${list.id} of=${list.id} class=${`amount ${row.amounts[list.id] === null ? 'quiet' : ''}`}>${amountOn(row, list)}<//>`)}</tr>`;

const Prices = ({ prices, q }) => {
  const rows = matching([...prices.lines, ...prices.extras], q, textOf, amountsOf);
  return html`<${Part} id="prices" sought=${q} title=${t('book.prices')} rows=${rows}><table class="ruled ruled--amounts stacks">
    <thead><tr><th scope="col">${t('book.price-line')}</th><th scope="col">${t('book.category')}</th>${prices.lists.map((list) => html`<th key=${list.id} scope="col" class="amount">${t('book.amount', { list: list.id })}</th>`)}</tr></thead>
    <tbody>${rows.map((row) => html`<${PriceRow} key=${row.id} row=${row} lists=${prices.lists} />`)}</tbody></table><//>`;
};

/** For the office alone: what the book proves to be. */
const Proved = ({ number }) => html`<${Proof} path=${`/api/books/${number}`} /><${StandardShells} number=${number} /><${Against} number=${number} />`;

export const Book = () => {
  const number = book.value.number;
  const [prices, rules, q] = [usePrices(number), useRules(number), useSignal('')];
  return html`<div class="work"><h1>${t('book.heading', { number })}</h1><p class="quiet">${say(book.value.title)}</p>
    ${may('draft-books') && html`<p class="acts"><${Link} to="/book-drafts" class="button">${t('drafts.change-book')}<//></p>`}
    <${TextField} label=${t('book.find')} hint=${t(may('see-price-lists') ? 'book.find-hint' : 'book.find-hint-rules')} type="search" value=${q.value} onWrite=${(text) => (q.value = text)} />
    <${Rules} rows=${matching(rules, q.value, textOf)} q=${q.value} />
    ${prices && html`<${Prices} prices=${prices} q=${q.value} />`}
    <${Options} rows=${matching(book.value.options, q.value, textOf)} q=${q.value} />
    ${may('see-proof') && !q.value && html`<${Proved} number=${number} />`}</div>`;
};
