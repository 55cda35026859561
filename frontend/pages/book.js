// The rule book to read and search: every rule with its reason, every option with its choices, every price list.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { book } from '../state/book.js';
import { TextField } from '../components/field/field.js';

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

export const Book = () => {
  const q = useSignal('');
  return html`<div class="work"><h1>${t('book.heading', { number: book.value.number })}</h1><p class="quiet">${say(book.value.title)}</p>
    <${TextField} label=${t('book.find')} hint=${t('book.find-hint')} type="search" value=${q.value} onWrite=${(text) => (q.value = text)} />
    <${Rules} rows=${matching(book.value.rules, q.value)} /><${Options} rows=${matching(book.value.options, q.value)} /></div>`;
};
