// One order: what it follows, its shells, its money and its documents. Here it is confirmed and looked after.
import { html } from '../html.js';
import { t } from '../state/language.js';
import { may } from '../state/session.js';
import { useComing } from '../state/coming.js';
import { useReading } from '../state/reading.js';
import { country, day, money } from '../format.js';
import { Link } from '../components/link/link.js';
import { OrderAccount } from '../components/order-account/order-account.js';
import { OrderConfirmation } from '../components/order-confirmation/order-confirmation.js';
import { OrderDates } from '../components/order-dates/order-dates.js';
import { OrderDocuments } from '../components/order-documents/order-documents.js';
import { OrderParts } from '../components/order-parts/order-parts.js';
import { OrderPayments } from '../components/order-payments/order-payments.js';
import { OrderRefund } from '../components/order-refund/order-refund.js';
import { BuildSheets } from '../components/build-sheets/build-sheets.js';
import { OrderLeaving } from '../components/order-leaving/order-leaving.js';
import { OrderShells } from '../components/order-shells/order-shells.js';
import { OrderTax } from '../components/order-tax/order-tax.js';
import { Fact } from '../components/fact/fact.js';
import { History } from '../components/history/history.js';
import { Missing } from './not-found.js';

/** Where some have left and some have not. */
const partOut = ({ lines }) => {
  const live = lines.flatMap(({ shells }) => shells).filter(({ state }) => state !== 'cancelled');
  const gone = live.filter(({ state }) => state === 'despatched').length;
  return gone > 0 && gone < live.length && t('order.part-out', { gone, of: live.length });
};

const Head = ({ order }) => html`<dl class="cells cells--issued cells--order">
  <${Fact} label=${t('order.number')} large=${true}>${order.number}<//>
  <${Fact} label=${t('order.follows')}><${Link} to=${`/quotations/${order.quotation}/${order.letter}`}>${order.quotation} ${order.letter}<//><//>
  <${Fact} label=${t('cell.customer')}>${order.customer}${order.customer_country ? `, ${country(order.customer_country)}` : ''}<//>
  <${Fact} label=${t('donor.title')}>${order.donor_number || t('slip.no-donor')}<//>
  <${Fact} label=${t('cell.state')}><span class=${`standing standing--${order.state}`}>${t(`shell.${order.state}`)}</span>${' '}<b>${t(order.confirmed ? 'order.confirmed' : 'order.not-confirmed')}</b>${partOut(order) && html`<br />${partOut(order)}`}<//>
  <${Fact} label=${t('order.made')}>${day(order.made_at)}, ${order.made_by_name}<//></dl>`;

/** A later revision that is out: to be read out before the customer says yes to it. */
const Pending = ({ pending: { letter, payable, moved }, currency, quotation }) => html`<section class="card" aria-labelledby="pending-title"><h2 id="pending-title"><${Link} to=${`/quotations/${quotation}/${letter}`}>${t('order.pending', { letter })}<//></h2>
  ${payable !== null && html`<p>${t('order.pending-sum', { sum: money(payable, currency) })}</p>`}${moved.map(({ line, says }) => html`<p key=${line}>${says}</p>`)}</section>`;

const Money = ({ order, onOrder }) =>
  order.account
    ? html`<${OrderAccount} account=${order.account} /><${OrderTax} order=${order} onOrder=${onOrder} /><${OrderPayments} order=${order} onOrder=${onOrder} />`
    : html`<section class="card"><p class="quiet">${t('order.money-hidden')}</p></section>`;

export const Order = ({ number }) => {
  const { body, problem, again } = useReading(`/api/orders/${number}`);
  const { all, come } = useComing(['dates', may('see-leaving') && 'leaving', may('see-parts') && 'parts', may('see-build-sheets') && 'sheets'].filter(Boolean));
  const order = body.value;
  if (problem.value || !order) return html`<${Missing} problem=${problem.value} />`;
  const take = (after) => (body.value = after);
  return html`<div class="issued order"><h1 class="unseen">${t('order.heading', { number: order.number })}</h1><${Head} order=${order} />
    ${order.followed.length > 1 && html`<p class="quiet">${t('order.followed', { letters: order.followed.slice(0, -1).join(', ') })}</p>`}
    ${!all && html`<${Missing} />`}<div hidden=${!all}><div class="issued__body"><div>${order.pending && html`<${Pending} pending=${order.pending} currency=${order.currency} quotation=${order.quotation} />`}<${OrderDates} order=${order} depositMet=${order.gates.some(({ gate, open }) => gate === 'deposit' && open)} onChange=${again} onReady=${come('dates')} /><${OrderConfirmation} order=${order} onOrder=${take} /><${OrderShells} order=${order} onChange=${again} />${may('see-leaving') && html`<${OrderLeaving} order=${order} onOrder=${take} onChange=${again} onReady=${come('leaving')} />`}<${OrderParts} number=${number} onReady=${come('parts')} /><${BuildSheets} quotation=${order.quotation} onReady=${come('sheets')} />
        ${order.documents && html`<${OrderDocuments} order=${order} onOrder=${take} /><${OrderRefund} order=${order} onOrder=${take} />`}</div>
      <div><${Money} order=${order} onOrder=${take} /><${History} history=${order.history} /></div></div></div></div>`;
};
