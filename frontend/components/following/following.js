// The dealer's open orders: how their shells stand, when they are ready and what binds that. No money.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say, language } from '../../state/language.js';
import { get } from '../../api.js';
import { Link } from '../link/link.js';
import { rangeText } from '../promise/promise.js';

const State = ({ one }) => html`<span class=${`standing standing--${one.state}`}>${t('follow.in-state', { count: one.count, state: t(`shell.${one.state}`) })}</span>`;

const Shell = ({ one }) => html`<span class="follow__shell">${one.count} × ${say(one.name)}</span>`;

const When = ({ when }) => html`<span class="follow__when"><b>${when.range ? rangeText(when.range) : t('follow.no-date')}</b>
  ${when.stopped && html`<strong class="follow__stopped">${when.stopped}</strong>`}
  <small>${t(when.promised ? 'follow.promised' : 'follow.indicative')} ${when.says}</small></span>`;

const Row = ({ row }) => html`<li class="slip"><${Link} to=${`/orders/${row.number}`} class="slip__link slip__link--follow">
  <b class="slip__number">${row.number}</b>
  <span class="slip__name">${row.customer}${row.shells.map((one, at) => html`<${Shell} key=${at} one=${one} />`)}</span>
  <span class="follow__states">${row.states.map((one) => html`<${State} key=${one.state} one=${one} />`)}</span>
  <${When} when=${row.when} /><//></li>`;

/** So many are seen at once; the desk's other work lies beneath. */
const FEW = 4;

export const Following = ({ onReady }) => {
  const [held, all] = [useSignal(null), useSignal(false)];
  const read = (address, before) => get(address).then(({ body }) => (held.value = { ...body, orders: [...before, ...body.orders] }), () => {});
  useEffect(() => {
    read('/api/open-orders', []).then(onReady);
  }, [language.value]);
  if (!held.value) return null;
  const { orders, next } = held.value;
  const seen = all.value ? orders : orders.slice(0, FEW);
  return html`<section aria-labelledby="follow-title"><h2 id="follow-title">${t('follow.title')}</h2>
    ${seen.length ? html`<ul class="slips">${seen.map((row) => html`<${Row} key=${row.number} row=${row} />`)}</ul>` : html`<p class="quiet">${t('follow.none')}</p>`}
    ${(next || seen.length < orders.length) && html`<button class="button" onClick=${() => (all.value ? read(next, orders) : (all.value = true))}>${t('follow.more')}</button>`}</section>`;
};
