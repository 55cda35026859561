// Inspections: shells that wait for theirs or are past it and in the house, one found by its serial; gauges.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { may, today } from '../state/session.js';
import { day } from '../format.js';
import { go } from '../state/route.js';
import { useReading } from '../state/reading.js';
import { useSending } from '../state/sending.js';
import { SelectField, TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';

const phaseText = (phase) => (phase.passed ? t(`inspect.verdict.${phase.passed.verdict}`) : phase.failed ? t('inspect.left-failed', { left: phase.unread, failed: phase.failed }) : t('inspect.left', { left: phase.unread }));

const Row = ({ row }) => html`<li class="inspect-shell"><${Link} to=${`/inspections/${row.serial}`}><b class="inspect-shell__serial">${row.serial}</b><span>${say(row.name)}</span>
  ${row.phases.filter(({ of }) => of).map((phase) => html`<span key=${phase.phase}><small>${t(`inspect.phase.${phase.phase}`)}</small> ${phaseText(phase)}</span>`)}<//></li>`;

const Find = () => {
  const serial = useSignal('');
  const find = (event) => {
    event.preventDefault();
    if (serial.value.trim()) go(`/inspections/${serial.value.trim().toUpperCase()}`);
  };
  return html`<form class="inspect-find" onSubmit=${find}><${TextField} label=${t('inspect.serial')} autocomplete="off" value=${serial.value} onWrite=${(text) => (serial.value = text)} /><button class="button button--heavy">${t('inspect.open')}</button></form>`;
};

const Shells = ({ title, rows }) => rows.length > 0 && html`<h2>${title} <small>${rows.length}</small></h2><ul class="inspect-shells">${rows.map((row) => html`<${Row} key=${row.shell} row=${row} />`)}</ul>`;

const SORTS = ['feeler', 'step', 'calliper', 'trammel', 'film', 'colour'];

const yearFrom = (text) => `${Number(text.slice(0, 4)) + 1}${text.slice(4)}`;

const Calibrate = ({ onGauges }) => {
  const [mark, sort, from, due] = [useSignal(''), useSignal('feeler'), useSignal(today()), useSignal(yearFrom(today()))];
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const after = await send('/api/gauges', { mark: mark.value, sort: sort.value, calibrated: from.value, due: due.value });
    if (after) onGauges(after);
  };
  return html`<form class="floor-form" onSubmit=${press}><h3>${t('gauges.calibrated')}</h3><${TextField} label=${t('gauges.mark')} hint=${t('gauges.mark-hint')} required autocomplete="off" value=${mark.value} onWrite=${(text) => (mark.value = text)} />
    <${SelectField} label=${t('gauges.sort')} value=${sort.value} onWrite=${(text) => (sort.value = text)} options=${SORTS.map((one) => [one, t(`gauges.sort.${one}`)])} />
    <${TextField} label=${t('gauges.from')} type="date" required value=${from.value} onWrite=${(text) => (from.value = text)} /><${TextField} label=${t('gauges.due')} type="date" required value=${due.value} onWrite=${(text) => (due.value = text)} />
    <button class="button" disabled=${busy.value}>${t('gauges.write')}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Gauge = ({ one }) => html`<tr><th scope="row">${one.mark}</th><td>${t(`gauges.sort.${one.sort}`)}</td><td>${day(one.calibrated)}</td><td>${day(one.due)}${one.good ? '' : html`<br /><b>${t('gauges.out')}</b>`}</td></tr>`;

const Gauges = () => {
  const { body, problem } = useReading('/api/gauges');
  return html`<details class="card floor-codes"><summary>${t('gauges.title')}</summary><p class="quiet">${t('gauges.lead')}</p>${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${body.value?.gauges.length > 0 && html`<table class="ruled"><thead><tr><th scope="col">${t('gauges.mark')}</th><th scope="col">${t('gauges.sort')}</th><th scope="col">${t('gauges.from')}</th><th scope="col">${t('gauges.due')}</th></tr></thead><tbody>${body.value.gauges.map((one) => html`<${Gauge} key=${one.id} one=${one} />`)}</tbody></table>`}
    ${may('keep-gauges') && html`<${Calibrate} onGauges=${(after) => (body.value = after)} />`}</details>`;
};

export const Inspections = () => {
  const { body, problem } = useReading('/api/inspections');
  const rows = body.value?.inspections ?? [];
  return html`<div class="work floor"><h1>${t('inspect.title')}</h1><p class="quiet">${t('inspect.lead')}</p><${Find} />
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${body.value && html`${rows.length === 0 && html`<p class="quiet">${t('inspect.none')}</p>`}
      <${Shells} title=${t('inspect.wait')} rows=${rows.filter(({ due }) => due)} /><${Shells} title=${t('inspect.past')} rows=${rows.filter(({ due }) => !due)} /><${Gauges} />`}</div>`;
};
