// After how many months whoever never ordered is proposed for erasing, and the list. Nobody is erased by time alone.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { get, post, put } from '../api.js';
import { country, day } from '../format.js';
import { dealerName } from '../state/dealers.js';
import { problemOf } from '../state/sending.js';
import { useReading } from '../state/reading.js';
import { TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { More, countText } from '../components/more/more.js';
import { Notice } from '../components/notice/notice.js';
import { Sure } from '../components/sure/sure.js';

/** So many are erased in one press: no more are shown at once. */
const MOST = 200;

const Months = ({ held, onHeld }) => {
  const [typed, problem] = [useSignal(''), useSignal(null)];
  const set = (months) => put('/api/retention', { months }).then(({ body }) => ((typed.value = ''), (problem.value = null), onHeld(body)), (error) => (problem.value = problemOf(error)));
  const press = (event) => {
    event.preventDefault();
    if (/^\d{1,3}$/.test(typed.value.trim())) set(Number(typed.value));
    else problem.value = { title: t('retention.not-read') };
  };
  return html`<form class="card retention" onSubmit=${press}><p>${held.months ? t(held.months === 1 ? 'retention.now-one' : 'retention.now', { months: held.months }) : t('retention.none')}</p>
    <${TextField} label=${t('retention.months')} inputmode="numeric" autocomplete="off" maxlength="3" value=${typed.value} onWrite=${(text) => (typed.value = text)} />
    <div class="acts"><button class="button">${t('retention.set')}</button>
      ${held.months && html`<button type="button" class="button" onClick=${() => set(null)}>${t('retention.stop')}</button>`}</div>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Row = ({ one }) => html`<li class="slip"><${Link} to=${`/customers/${one.id}`} class="slip__link slip__link--due">
  <span class="slip__name">${one.name}<small>${[dealerName(one.dealer), one.country && country(one.country), one.alike && t('retention.alike')].filter(Boolean).join(' · ')}</small></span>
  <span class="slip__day">${t('retention.moved', { day: day(one.moved) })}</span><//></li>`;

const pagesOf = ({ due, next }) => ({ rows: due, next: due.length < MOST ? next : null });

const List = ({ held, onHeld }) => {
  const problem = useSignal(null);
  const more = () => get(held.next).then(({ body }) => (onHeld({ ...held, due: [...held.due, ...body.due], next: body.next }), true), (error) => ((problem.value = problemOf(error)), false));
  const erase = () => post('/api/retention/erasures', { customers: held.due.map((one) => one.id) }).then(({ body }) => onHeld(body), (error) => (problem.value = problemOf(error)));
  if (!held.due.length) return html`<p class="quiet">${t('retention.nobody')}</p>`;
  return html`<ul class="slips" id="due-list">${held.due.map((one) => html`<${Row} key=${one.id} one=${one} />`)}</ul>
    <${More} pages=${{ ...pagesOf(held), more }} list="due-list" of=${t('retention.due')} />
    <p class="retention__what">${t('retention.what')}</p>
    <${Sure} label=${t(held.due.length === 1 ? 'retention.erase-one' : 'retention.erase', { count: held.due.length })} says=${t('retention.sure')} onPress=${erase} />
    ${problem.value && html`<${Notice} problem=${problem.value} />`}`;
};

export const Retention = () => {
  const { body: held, problem } = useReading('/api/retention');
  return html`<div class="work"><h1>${t('retention.title')}</h1><p class="quiet">${t('retention.lead')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${held.value && html`<${Months} held=${held.value} onHeld=${(body) => (held.value = body)} />
      <section aria-labelledby="due-title"><h2 id="due-title">${t('retention.due')} <small>${countText(pagesOf(held.value))}</small></h2>
        ${held.value.left.length > 0 && html`<p role="status">${t('retention.left', { count: held.value.left.length })}</p>`}
        <${List} held=${held.value} onHeld=${(body) => (held.value = body)} /></section>`}</div>`;
};
