// The lines of an order and their shells, each with what it waits for. A serial comes at release.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { money } from '../../format.js';

const Shell = ({ shell }) => html`<li class="order-shell"><b>${t('order.shell', { place: shell.place })}</b> <span class=${`standing standing--${shell.state}`}>${t(`shell.${shell.state}`)}</span>
  <span class="quiet">${shell.serial ?? t('order.no-serial')}</span></li>`;

const waits = ({ parts, approvals }) => [...parts, ...approvals].join(', ');

const Line = ({ line, at, currency }) => html`<section class="order-line" aria-label=${t('issued.line', { line: at + 1, count: line.quantity })}>
  <h3>${at + 1}. ${line.quantity} × ${say(line.name)}</h3>
  <p class="quiet">${[line.net === null ? '' : t('order.line-net', { sum: money(line.net, currency) }), waits(line) && t('slip.parts', { ids: waits(line) })].filter(Boolean).join(' · ')}</p>
  <ul>${line.shells.map((shell) => html`<${Shell} key=${shell.id} shell=${shell} />`)}</ul></section>`;

export const OrderShells = ({ order }) => html`<section class="card" aria-labelledby="shells-title"><h2 id="shells-title">${t('order.shells')}</h2>
  ${order.lines.map((line, at) => html`<${Line} key=${at} line=${line} at=${at} currency=${order.currency} />`)}</section>`;
