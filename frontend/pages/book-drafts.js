// The drafts of rule books: those being written first, then what became of the others. A new one begins as a copy.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { go } from '../state/route.js';
import { useSending } from '../state/sending.js';
import { useReading } from '../state/reading.js';
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
  const [held, books] = [useReading('/api/book-drafts'), useReading('/api/books')];
  const [drafts, problem] = [held.body.value?.drafts, held.problem.value ?? books.problem.value];
  return html`<div class="work"><h1>${t('drafts.title')}</h1><p class="quiet">${t('drafts.lead')}</p>
    ${problem && html`<${Notice} problem=${problem} />`}
    ${books.body.value && html`<${Begin} books=${books.body.value} />`}
    ${drafts && html`<section aria-labelledby="drafts-title"><h2 id="drafts-title">${t('drafts.all')} <small>${drafts.length}</small></h2>
      ${drafts.length ? html`<ul class="slips">${drafts.map((one) => html`<${Row} key=${one.id} one=${one} />`)}</ul>` : html`<p class="quiet">${t('drafts.none')}</p>`}</section>`}</div>`;
};
