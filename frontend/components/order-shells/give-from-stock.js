// A planned shell of an order given one of stock by hand: what could become it, what would be changed on that, and when it
// would be ready. It goes back on the stock's page.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may, person } from '../../state/session.js';
import { day } from '../../format.js';
import { useReading } from '../../state/reading.js';
import { useSending } from '../../state/sending.js';
import { Folded } from '../folded/folded.js';
import { daysText, Differences, standsText, Work } from '../from-stock/from-stock.js';
import { Link } from '../link/link.js';
import { Notice } from '../notice/notice.js';

const readyText = ({ ready, ready_by: by, promised }) => {
  const slots = { from: day(ready), to: day(by), promised: day(promised) };
  return t(promised ? 'give-stock.ready' : 'give-stock.ready-alone', slots);
};

const Offer = ({ offer, busy, onGive }) => html`<li class="from-stock__shell is-fitting">
  <p class="from-stock__head"><b>${offer.name}</b> <span>${standsText(offer)}</span> <span class="from-stock__days">${daysText(offer)}</span></p>
  <p>${offer.differences.length ? t('give-stock.changed') : t('from-stock.same')} ${readyText(offer)}</p>
  ${offer.second && html`<p><b>${t('from-stock.second')}</b> ${offer.why}</p>`}
  ${offer.differences.length > 0 && html`<${Differences} match=${offer} />`}<${Work} match=${offer} />
  ${offer.asks && html`<p><b>${t('give-stock.asks')}</b></p>`}
  ${(!offer.asks || person.value.role === 'manager') && html`<button class="button" disabled=${busy} onClick=${() => onGive(offer.id)} aria-label=${t('give-stock.give-of', { shell: offer.name })}>${t('give-stock.give')}</button>`}</li>`;

const Offers = ({ order, place, onChange, onDone }) => {
  const { body, problem } = useReading(`/api/orders/${order.number}/stock-offers?shell=${place}`);
  const { send, problem: refused, busy } = useSending();
  const give = async (id) => {
    if (await send(`/api/stock-shells/${id}/allocation`, { order: order.number, shell: place })) (onDone(), onChange());
  };
  if (problem.value) return html`<${Notice} problem=${problem.value} />`;
  if (!body.value) return null;
  const { offers } = body.value;
  return html`<div class="from-stock give-stock"><p class="quiet">${t(offers.length ? 'give-stock.lead' : 'give-stock.none')}</p>
    ${offers.length > 0 && html`<ul class="from-stock__list">${offers.map((offer) => html`<${Offer} key=${offer.id} offer=${offer} busy=${busy.value} onGive=${give} />`)}</ul>`}
    ${refused.value && html`<${Notice} problem=${refused.value} />`}</div>`;
};

const depositMet = ({ gates }) => gates.some(({ gate, open }) => gate === 'deposit' && open);

/** `place`: of the shell in the whole order, from 1; `onChange`: the order is another one now. */
export const GiveFromStock = ({ order, shell, place, onChange }) => {
  if (shell.stock) return html`<span class="quiet">${may('allocate-stock') ? html`<${Link} to="/calendar">${t('give-stock.has', { stock: shell.stock })}<//>` : t('give-stock.has', { stock: shell.stock })}</span>`;
  if (!may('allocate-stock') || shell.state !== 'planned' || !depositMet(order)) return null;
  return html`<${Folded} label=${t('give-stock.open')}>${(close) => html`<${Offers} order=${order} place=${place} onChange=${onChange} onDone=${close} />`}<//>`;
};
