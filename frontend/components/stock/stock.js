// The firm's stock: how many there are and may be, where each is in the shop, where it came from and whose it is.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { choiceLabel, optionLabel } from '../../state/book.js';
import { may } from '../../state/session.js';
import { put, remove } from '../../api.js';
import { day, dayAndTime } from '../../format.js';
import { problemOf } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { TextField, typed } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { rangeText } from '../promise/promise.js';
import { whatOf } from '../shop-calendar/ticket.js';
import { Sure } from '../sure/sure.js';

const movedText = (one) => (one.because ? t('stock.moved-for', { day: day(one.at), order: one.because }) : t('stock.moved', { day: day(one.at) }));

const NAMES = { free: 'stock.free', reserved: 'stock.reserved', allocated: 'stock.allocated', sold: 'stock.sold' };

const stateText = ({ state, reserved, allocated }) => {
  if (reserved) return t(NAMES.reserved, { quotation: reserved.quotation, until: dayAndTime(reserved.until) });
  return allocated ? t(NAMES[state], { order: allocated.order, shell: allocated.shell }) : t(NAMES[state]);
};

/** Where it is in the shop; what is only planned is told by its days. */
const whereText = (one) => {
  if (one.stands === 'planned') return t(one.begun ? 'stock.due' : 'stock.planned');
  return one.stage ? t('stock.at', { stage: say(one.stage) }) : t('stock.finished');
};

const cameText = (one) => (one.source === 'built' ? t('stock.source.built') : t(`stock.source.${one.source}`, { order: one.came_from, why: one.why }));

const Settled = ({ settled }) => html`<details><summary>${t('stock.specification')}</summary><dl class="stock-row__settled">
  ${Object.entries(settled).map(([option, choice]) => html`<div key=${option}><dt>${optionLabel(option)}</dt><dd>${choiceLabel(option, choice)}</dd></div>`)}</dl></details>`;

const Where = ({ one }) => html`<div><p><b>${whereText(one)}</b>${one.days !== null && one.stands !== 'planned' ? ` · ${t(one.days === 1 ? 'stock.age-one' : 'stock.age', { days: one.days })}` : ''}</p>
  ${one.stands === 'planned' ? html`<p>${t('date.slot', { day: day(one.plan.slot) })}</p><p>${rangeText(one.plan)}</p>` : html`<p>${stateText(one)}</p>`}</div>`;

const Deeds = ({ one, onWithdraw, onGiveUp }) => html`<div>${!one.begun && one.stands === 'planned' && may('build-stock') && html`<${Sure} label=${t('stock.withdraw')} says=${t('stock.withdraw-means')} onPress=${() => onWithdraw(one)} />`}
  ${one.returnable && may('allocate-stock') && html`<${Sure} label=${t('stock.give-up')} says=${t('stock.give-up-means', { order: one.allocated.order })} onPress=${() => onGiveUp(one)} />`}</div>`;

const Row = ({ one, ...deeds }) => html`<li class=${`token stock-row stock-row--${one.state}`}><div><b>${one.serial ?? one.number}</b>${one.serial ? ` (${one.number})` : ''} ${whatOf(one)} · ${t(one.painted ? 'stock.painted' : 'stock.primed')}
    <p class="quiet">${cameText(one)}</p>${one.act === 'moved' && html`<p class="quiet">${movedText(one)}</p>`}<${Settled} settled=${one.settled} /></div>
  <${Where} one=${one} /><${Deeds} one=${one} ...${deeds} /></li>`;

/** A whole number that holds for all of the stock. */
const Setting = ({ label, set, value, min, max, onSet }) => {
  const text = useSignal(String(value));
  const press = (event) => {
    event.preventDefault();
    onSet(Number(text.value));
  };
  return html`<form class="acts stock__cap" onSubmit=${press}><${TextField} label=${label} type="number" min=${min} max=${max} required ...${typed(text)} /><button class="button">${set}</button></form>`;
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
  const { cap, hours, shells } = held.value;
  return html`<section class="card" aria-labelledby="stock-title"><h2 id="stock-title">${t('stock.title')}</h2><p class="quiet">${t('stock.lead')}</p>
    <p>${t('stock.count', { count: shells.filter(({ allocated }) => !allocated).length, cap })}</p>
    ${shells.length > 0 && html`<ul class="tokens">${shells.map((one) => html`<${Row} key=${one.id} one=${one} onWithdraw=${() => after(remove(`/api/stock-shells/${one.id}`))} onGiveUp=${() => after(remove(`/api/stock-shells/${one.id}/allocation`))} />`)}</ul>`}
    ${may('cap-stock') && html`<${Setting} label=${t('stock.cap')} set=${t('stock.set-cap')} value=${cap} min="0" max="100" onSet=${(most) => after(put('/api/stock-cap', { cap: most }))} />
      <${Setting} label=${t('stock.hours')} set=${t('stock.set-hours')} value=${hours} min="1" max="336" onSet=${(some) => after(put('/api/stock-hours', { hours: some }))} />`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</section>`;
};
