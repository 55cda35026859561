// What is built for stock: how many there are and may be, each with its slot, and what it made room for.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { put, remove } from '../../api.js';
import { day } from '../../format.js';
import { problemOf } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { rangeText } from '../promise/promise.js';
import { whatOf } from '../shop-calendar/ticket.js';
import { Sure } from '../sure/sure.js';

const movedText = (one) => (one.because ? t('stock.moved-for', { day: day(one.at), order: one.because }) : t('stock.moved', { day: day(one.at) }));

const Row = ({ one, onWithdraw }) => html`<li class="token stock-row"><div><b>${one.number}</b> ${whatOf(one)}${one.act === 'moved' && html`<p class="quiet">${movedText(one)}</p>`}</div>
  <p>${t('date.slot', { day: day(one.plan.slot) })}<br />${rangeText(one.plan)}</p>
  ${one.begun ? html`<p>${t('calendar.state-begun')}</p>` : may('build-stock') && html`<${Sure} label=${t('stock.withdraw')} says=${t('stock.withdraw-means')} onPress=${() => onWithdraw(one)} />`}</li>`;

const Cap = ({ cap, onSet }) => {
  const typed = useSignal(String(cap));
  const press = (event) => {
    event.preventDefault();
    onSet(Number(typed.value));
  };
  return html`<form class="acts stock__cap" onSubmit=${press}><${TextField} label=${t('stock.cap')} type="number" min="0" max="100" required value=${typed.value} onWrite=${(text) => (typed.value = text)} /><button class="button">${t('stock.set-cap')}</button></form>`;
};

/** `turn`: counts what was moved on the calendar, since stock may have made room. */
export const Stock = ({ turn, onChanged }) => {
  const { body: held, problem } = useReading('/api/stock-shells', turn);
  const told = ({ body }) => {
    held.value = body;
    problem.value = null;
    onChanged();
  };
  const after = (asked) => asked.then(told, (error) => (problem.value = problemOf(error)));
  if (!may('see-stock') || !held.value) return null;
  const { cap, shells } = held.value;
  return html`<section class="card" aria-labelledby="stock-title"><h2 id="stock-title">${t('stock.title')}</h2><p class="quiet">${t('stock.lead')}</p>
    <p>${t('stock.count', { count: shells.length, cap })}</p>
    ${shells.length > 0 && html`<ul class="tokens">${shells.map((one) => html`<${Row} key=${one.id} one=${one} onWithdraw=${() => after(remove(`/api/stock-shells/${one.id}`))} />`)}</ul>`}
    ${may('cap-stock') && html`<${Cap} cap=${cap} onSet=${(most) => after(put('/api/stock-cap', { cap: most }))} />`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</section>`;
};
