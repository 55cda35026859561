// The drafts of rule books: those being written first, then what became of the others. A new one begins as a copy.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { sight } from '../state/session.js';
import { get } from '../api.js';
import { go } from '../state/route.js';
import { problemOf, useSending } from '../state/sending.js';
import { day, dayAndTime } from '../format.js';
import { standingText } from '../components/book-draft/draft-head.js';
import { SelectField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';

const Row = ({ one }) => html`<li class="slip"><${Link} to=${`/book-drafts/${one.id}`} class="slip__link slip__link--due">
  <span class="slip__name"><b>${t('drafts.named', { number: one.id })}</b><small>${t('drafts.from', { number: one.base })} · ${standingText(one)}</small></span>
  <span class="slip__day">${t('drafts.changed', { at: dayAndTime(one.changed_at), by: one.changed_by_name })}</span><//></li>`;

const bookNamed = (current) => (one) => [String(one.number), `${t('proof.book-named', { number: one.number, day: day(one.published_at), note: one.note })}${one.number === current ? ` (${t('drafts.in-force')})` : ''}`];

const Begin = ({ books }) => {
  const picked = useSignal(String(books.current));
  const { send, problem, busy } = useSending();
  const begin = async (event) => {
    event.preventDefault();
    const made = await send('/api/book-drafts', { base: Number(picked.value) });
    if (made) go(`/book-drafts/${made.id}`);
  };
  return html`<form class="card" onSubmit=${begin}><${SelectField} label=${t('drafts.begin-from')} hint=${t('drafts.begin-hint')} value=${picked.value} options=${books.books.map(bookNamed(books.current))} onWrite=${(value) => (picked.value = value)} />
    <div class="acts"><button class="button button--heavy" disabled=${busy.value}>${t('drafts.begin')}</button></div>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

export const BookDrafts = () => {
  const [held, books, problem] = [useSignal(null), useSignal(null), useSignal(null)];
  useEffect(() => {
    get('/api/book-drafts').then(({ body }) => (held.value = body.drafts), (error) => (problem.value = problemOf(error)));
    get('/api/books').then(({ body }) => (books.value = body), (error) => (problem.value = problemOf(error)));
  }, [sight.value]);
  return html`<div class="work"><h1>${t('drafts.title')}</h1><p class="quiet">${t('drafts.lead')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${books.value && html`<${Begin} books=${books.value} />`}
    ${held.value && html`<section aria-labelledby="drafts-title"><h2 id="drafts-title">${t('drafts.all')} <small>${held.value.length}</small></h2>
      ${held.value.length ? html`<ul class="slips">${held.value.map((one) => html`<${Row} key=${one.id} one=${one} />`)}</ul>` : html`<p class="quiet">${t('drafts.none')}</p>`}</section>`}</div>`;
};
