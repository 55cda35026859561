// All orders, found with one search field; what each waits for in money. Beneath, what the bookkeeper takes over.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { may } from '../state/session.js';
import { usePages } from '../state/pages.js';
import { day, money } from '../format.js';
import { dealerName } from '../state/dealers.js';
import { TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { More } from '../components/more/more.js';
import { Notice } from '../components/notice/notice.js';
import { Tolerances } from '../components/tolerances/tolerances.js';
import { Bookkeeping } from '../components/bookkeeping/bookkeeping.js';

const waits = ({ deposit_met: met, cancelled, account }) => {
  if (cancelled) return account?.due ? t('orders.cancelled-due', { sum: money(account.due, account.currency) }) : t('orders.cancelled');
  if (!account) return t(met ? 'orders.deposit-there' : 'orders.deposit-open');
  if (!met && account.short !== 0) return account.short ? t('orders.short', { sum: money(account.short, account.currency) }) : t('orders.deposit-open');
  if (account.due) return t('orders.due', { sum: money(account.due, account.currency) });
  return t(met ? 'orders.deposit-met' : 'orders.nothing-due');
};

export const OrderRow = ({ row }) => html`<li class="slip"><${Link} to=${`/orders/${row.number}`} class="slip__link slip__link--order">
  <b class="slip__number">${row.number}</b>
  <span class="slip__name">${row.customer}<small>${[dealerName(row.dealer) === row.customer ? '' : dealerName(row.dealer), `${row.quotation} ${row.letter}`].filter(Boolean).join(' · ')}</small></span>
  <span>${t(row.shells === 1 ? 'orders.shell' : 'orders.shells', { count: row.shells })}</span>
  <span class=${`slip__waits ${row.cancelled ? '' : `gate gate--${row.deposit_met ? 'open' : 'shut'}`}`}>${waits(row)}</span>
  <span class="slip__total">${row.account?.payable != null ? html`${money(row.account.payable, row.account.currency)}<small>${t('totals.with-tax')}</small>` : ''}</span>
  <span class="slip__day">${t('orders.made', { day: day(row.made_at) })}</span><//></li>`;

export const Orders = () => {
  const q = useSignal('');
  const pages = usePages(`/api/orders${q.value ? `?${new URLSearchParams({ q: q.value })}` : ''}`, 'orders', (row) => row.number);
  return html`<div class="work"><h1>${t('orders.title')}</h1><p class="quiet">${t('orders.lead')}</p>
    ${may('see-floor') && html`<p class="leaving-link"><${Link} to="/floor">${t('floor.to')}<//></p>`}${may('see-leaving') && html`<p class="leaving-link"><${Link} to="/leaving">${t('leaving.to')}<//></p>`}
    <div class="work__find"><${TextField} label=${t('work.find')} hint=${t('orders.find-hint')} type="search" maxlength="200" value=${q.value} onWrite=${(text) => (q.value = text)} /></div>
    ${pages.problem && html`<${Notice} problem=${pages.problem} />`}
    ${pages.rows && (pages.rows.length ? html`<ul class="slips" id="orders-list">${pages.rows.map((row) => html`<${OrderRow} key=${row.number} row=${row} />`)}</ul>` : html`<p class="quiet">${t('work.nothing')}</p>`)}
    <${More} pages=${pages} list="orders-list" of=${t('orders.title')} />
    <div class="orders__beneath"><${Bookkeeping} /><${Tolerances} />${may('see-bank') && html`<p class="orders__bank"><${Link} to="/bank-details">${t('bank.firm')}<//></p>`}</div></div>`;
};
