// The dates of an order: what was promised of each shell, the gates with their days, and slots that are moved only as shown.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { isDealer, may } from '../../state/session.js';
import { day } from '../../format.js';
import { useSending } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { useReady } from '../../state/coming.js';
import { SelectField, TextField } from '../field/field.js';
import { Folded } from '../folded/folded.js';
import { MoveSlot } from '../move-slot/move-slot.js';
import { Notice } from '../notice/notice.js';
import { Stages, rangeText, weeksText } from '../promise/promise.js';

const ofOrder = (gate) => gate === 'deposit' || gate === 'specification';
const gateName = ({ gate, of }) => (of ? `${t(`date.gate.${gate}`)} ${of}` : t(`date.gate.${gate}`));

/** A deposit may be met by what was received and still have no day on which it cleared. */
const gateDay = ({ opened, dated, day: on }, met) => (opened ? t('date.opened', { day: day(on) }) : dated ? t('date.expected', { day: day(on) }) : t(!met ? 'date.not-dated' : isDealer.value ? 'date.met' : 'date.met-not-dated'));

/** Nothing has to be through by today: where no slot is taken yet, each day simply moves the date. */
const Gate = ({ gate, met, today }) => html`<li class=${`gate gate--${gate.opened ? 'open' : gate.dated || met ? 'later' : 'shut'}`}><b>${gateName(gate)}</b> ${gateDay(gate, met)}
  ${!gate.opened && gate.by > today && html` <small>${t('date.by', { day: day(gate.by) })}</small>`}${gate.said_by_name && html` <small class="quiet">${gate.said_by_name}</small>`}</li>`;

const GateForm = ({ number, shell, today, onDates, onDone }) => {
  const gates = shell.gates.filter(({ gate }) => gate !== 'tools');
  const [at, on] = [useSignal('0'), useSignal(today)];
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const { gate, of } = gates[Number(at.value)];
    const after = await send(`/api/orders/${number}/gates`, { shell: ofOrder(gate) ? 0 : shell.shell, gate, of, day: on.value });
    if (!after) return;
    onDone();
    onDates(after);
  };
  return html`<form class="money-form" onSubmit=${press}>
    <${SelectField} label=${t('date.gate')} options=${gates.map((gate, place) => [String(place), gateName(gate)])} value=${at.value} onWrite=${(text) => (at.value = text)} />
    <${TextField} label=${t('date.day')} hint=${t('date.day-hint')} type="date" required value=${on.value} onWrite=${(text) => (on.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('date.write')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

/** By a safety fault: it comes before any day, since none holds. */
const Stopped = ({ shell }) => shell.stopped.map((says) => html`<p class="payment__says" key=${says}>${says}</p>`);

const Shell = ({ shell, number, today, onDates, many, depositMet }) => {
  const made = shell.kept ?? shell.now;
  return html`<section class="order-line" aria-label=${t('order.shell', { place: shell.shell })}>
    ${many && html`<h3>${t('order.shell', { place: shell.shell })}</h3>`}
    <${Stopped} shell=${shell} />
    ${made && html`<p class="promise__range"><b>${rangeText(made)}</b> <small>${weeksText(made)}</small></p>
      <p>${shell.kept ? t('date.slot', { day: day(shell.kept.slot) }) : t('date.no-slot-yet')}</p>`}
    <p class=${shell.adrift ? 'payment__says' : 'promise__why'}>${shell.says}</p>
    ${shell.adrift && shell.now && html`<p>${t('date.now')} ${rangeText(shell.now)}. ${shell.now.says}</p>`}
    <ul class="gates">${shell.gates.map((gate) => html`<${Gate} key=${gate.gate + gate.of} gate=${gate} today=${today} met=${depositMet && gate.gate === 'deposit'} />`)}</ul>
    ${made && html`<details class="promise__folded"><summary>${t('promise.stages')}</summary><${Stages} steps=${made.steps} /></details>`}
    ${may('move-slots') && html`<div class="acts"><${Folded} label=${t('date.write-gate')}>${(done) => html`<${GateForm} number=${number} shell=${shell} today=${today} onDates=${onDates} onDone=${done} />`}<//>
      ${shell.kept && html`<${Folded} label=${t('date.move-slot')}>${(done) => html`<${MoveSlot} number=${number} shell=${shell.shell} slot=${shell.kept.slot} onMoved=${(after) => (done(), onDates(after))} />`}<//>`}</div>`}</section>`;
};

/** Nothing is promised of it any more: its date has come or is void. */
const DONE = ['ready', 'despatched', 'cancelled'];

const Done = ({ shell, state }) => html`<section class="order-line" aria-label=${t('order.shell', { place: shell.shell })}><h3>${t('order.shell', { place: shell.shell })} <span class=${`standing standing--${state}`}>${t(`shell.${state}`)}</span></h3><${Stopped} shell=${shell} /></section>`;

const statesOf = (order) => new Map(order.lines.flatMap(({ shells }) => shells.map(({ place, state }) => [place, state])));

/** A date that is not what was shown before is said: another's deposit may have come first. */
const later = (before, after) =>
  after.shells.filter((shell, at) => shell.kept && !before.shells[at]?.kept && before.shells[at]?.now && before.shells[at].now.slot !== shell.kept.slot).map((shell) => t('date.taken-meanwhile', { shell: shell.shell, range: rangeText(shell.kept) }));

/** `order`: read anew with it; `depositMet`: by what was received. `onChange`: something was written. */
export const OrderDates = ({ order, depositMet, onChange, onReady }) => {
  const said = useSignal([]);
  const { number } = order;
  const read = useReading(`/api/orders/${number}/promises`, order);
  const { body: held } = read;
  useReady(read, onReady);
  if (!held.value) return null;
  const take = (after) => {
    said.value = later(held.value, after);
    held.value = after;
    onChange();
  };
  const { shells, today, export_limit: limit } = held.value;
  const states = statesOf(order);
  return html`<section class="card" aria-labelledby="dates-title"><h2 id="dates-title">${t('date.title')}</h2>
    ${said.value.map((text) => html`<p class="payment__says" role="status" key=${text}>${text}</p>`)}
    ${limit && html`<p class="payment__says" role="note">${limit.says}</p>`}
    ${shells.map((shell) => DONE.includes(states.get(shell.shell)) ? html`<${Done} key=${shell.shell} shell=${shell} state=${states.get(shell.shell)} />` : html`<${Shell} key=${shell.shell} shell=${shell} number=${number} today=${today} many=${shells.length > 1} depositMet=${depositMet} onDates=${take} />`)}
    <p class="quiet">${t(isDealer.value ? 'date.lead-dealer' : 'date.lead')}</p></section>`;
};
