// The lines of an order and their shells, each with its serial, its stage and, on asking, what may still change on it.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { may } from '../../state/session.js';
import { serialText } from '../../state/shells.js';
import { money } from '../../format.js';
import { useReading } from '../../state/reading.js';
import { Link } from '../link/link.js';
import { FreezeLine } from '../freeze-line/freeze-line.js';
import { Notice } from '../notice/notice.js';
import { GiveFromStock } from './give-from-stock.js';

/** Asked for when it is opened: nobody waits for it who does not read it. */
const MayChange = ({ id }) => {
  const open = useSignal(false);
  const { body: found, problem } = useReading(open.value && `/api/shells/${id}`);
  return html`<details class="order-shell__more" onToggle=${(event) => (open.value = event.target.open)}><summary>${t('change.title')}</summary>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}${found.value && html`<${FreezeLine} shell=${found.value} />`}</details>`;
};

/** Each serial leads to its inspection, for whoever may read it. */
const Replaced = ({ serials }) => {
  const [before, behind] = t('floor.replaces').split('{serials}');
  const serial = (one) => (may('see-inspections') ? html`<${Link} to=${`/inspections/${one}`}>${one}<//>` : one);
  return html`<span class="quiet">${before}${serials.map((one, at) => html`${at > 0 && ', '}${serial(one)}`)}${behind}</span>`;
};

const Shell = ({ shell, order, place, onChange }) => html`<li class="order-shell"><b>${t('order.shell', { place: shell.place })}</b> <span class=${`standing standing--${shell.state}`}>${t(`shell.${shell.state}`)}</span>
  <span class=${shell.serial ? 'order-shell__serial' : 'quiet'}>${serialText(shell)}</span>
  ${shell.stage && html`<span>${say(shell.stage_label)}</span>`}${shell.replaced.length > 0 && html`<${Replaced} serials=${shell.replaced} />`}
  ${may('see-changes') && order.confirmed && html`<${Link} to=${`/shells/${shell.id}/changes`}>${t('shell-change.title')}<//>`}
  <${GiveFromStock} order=${order} shell=${shell} place=${place} onChange=${onChange} />
  ${may('see-floor') && html`<${MayChange} key=${shell.state + shell.stage} id=${shell.id} />`}</li>`;

const waits = ({ parts, awaits }) => [...parts, ...awaits].join(', ');

/** `before`: how many shells stand in the lines before it. */
const Line = ({ line, at, before, order, onChange }) => html`<section class="order-line" aria-label=${t('issued.line', { line: at + 1, count: line.quantity })}>
  <h3>${at + 1}. ${line.quantity} × ${say(line.name)}</h3>
  <p class="quiet">${[line.net === null ? '' : t('order.line-net', { sum: money(line.net, order.currency) }), waits(line) && t('slip.parts', { ids: waits(line) })].filter(Boolean).join(' · ')}</p>
  <ul>${line.shells.map((shell, nth) => html`<${Shell} key=${shell.id} shell=${shell} order=${order} place=${before + nth + 1} onChange=${onChange} />`)}</ul></section>`;

const before = (lines, at) => lines.slice(0, at).reduce((sum, { shells }) => sum + shells.length, 0);

/** `onChange`: something else than an answer of the server's made the order another one. */
export const OrderShells = ({ order, onChange }) => html`<section class="card" aria-labelledby="shells-title"><h2 id="shells-title">${t('order.shells')}</h2>
  ${order.lines.map((line, at) => html`<${Line} key=${at} line=${line} at=${at} before=${before(order.lines, at)} order=${order} onChange=${onChange} />`)}</section>`;
