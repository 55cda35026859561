// What lies on the desk: enquiries and quotations, found with one search field, each with its state.
import { useRef } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { isDealer, may, pricesShown } from '../state/session.js';
import { useComing } from '../state/coming.js';
import { usePages } from '../state/pages.js';
import { country, day, lastDay, money } from '../format.js';
import { TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { Standing } from '../components/standing/standing.js';
import { dealerName } from '../state/dealers.js';
import { shortYesText } from '../components/earlier-yes/earlier-yes.js';
import { FoundBy } from '../components/found-by/found-by.js';
import { More, countText } from '../components/more/more.js';
import { SafetyStands } from '../components/safety/safety-link.js';
import { Notice } from '../components/notice/notice.js';
import { RequestsWaiting } from '../components/requests/requests.js';
import { Following } from '../components/following/following.js';
import { Watch } from '../components/watch/watch.js';

const addressOf = (path, query) => `${path}?${new URLSearchParams(Object.entries(query).filter(([, value]) => value))}`;

/** Enquiries have no state, and customers are listed only where something is sought: else the desk shows what lies on it. */
const useFound = (q, state) => ({
  quotations: usePages(addressOf('/api/quotations', { q, state }), 'quotations', (row) => row.number),
  enquiries: usePages(may('enquire') && !state ? addressOf('/api/enquiries', { q }) : null, 'enquiries', (row) => row.id),
  customers: usePages(may('read-customers') && q.trim() && !state ? addressOf('/api/customers', { q }) : null, 'customers', (row) => row.id),
});

/** Whose customer it is, where that says more: a dealer's own desk and a dealer's own shells need no second name. */
const through = (customer, dealer) => {
  const name = isDealer.value ? '' : dealerName(dealer);
  return name !== nameOf(customer) && html`<small>${name}</small>`;
};

const nameOf = (customer) => (typeof customer === 'string' ? customer : customer?.name ?? '');

/** A draft that has no sum yet says so, rather than leaving a gap. */
const totalOf = ({ total, state }) => {
  if (total) return html`${total.with_tax.map((amount) => money(amount, total.currency)).join(' / ')}<small>${t('totals.with-tax')}</small>`;
  return state === 'draft' && pricesShown.value && html`<small>${t('slip.no-sum')}</small>`;
};

const waitsText = ({ waits_for: waits, draft, earlier_yes: yes, parts, approvals }) =>
  [draft ? t('slip.draft', { letter: draft }) : waits && t(`waits.${waits}`), yes && shortYesText(yes), (parts.length || approvals.length) && t('slip.parts', { ids: [...parts, ...approvals].join(', ') })].filter(Boolean).join(' · ');

export const QuotationRow = ({ row }) => html`<li class="slip">
  <${Link} to=${`/quotations/${row.number}`} class="slip__link">
    <b class="slip__number">${row.number} ${row.letter}</b>
    <span class="slip__name">${nameOf(row.customer)}${through(row.customer, row.dealer)}</span>
    <${Standing} state=${row.state} />
    <span class="slip__waits">${waitsText(row)}</span>
    <span class="slip__total">${totalOf(row)}</span>
    <span class="slip__day">${row.valid_until ? t('slip.valid', { day: lastDay(row.valid_until) }) : t('slip.changed', { day: day(row.updated_at) })}</span>
    <${FoundBy} hits=${row.found_by} />
  <//></li>`;

const EnquiryRow = ({ row }) => html`<li class="slip">
  <${Link} to=${row.quotations?.length ? `/quotations/${row.quotations.at(-1)}` : `/enquiries/${row.id}`} class="slip__link">
    <b class="slip__number">${row.reference}</b>
    <span class="slip__name">${nameOf(row.customer)}</span>
    <span class="slip__donor">${row.donor?.number_text || t('slip.no-donor')}</span>
    <span class="slip__waits">${row.quotations?.join(', ') || t('slip.no-quotation')}</span>
    <span class="slip__total"></span>
    <span class="slip__day">${t('slip.changed', { day: day(row.updated_at) })}</span>
    <${FoundBy} hits=${row.found_by} />
  <//></li>`;

const CustomerRow = ({ row: { id, customer, found_by: hits } }) => html`<li class="slip">
  <${Link} to=${`/customers/${id}`} class="slip__link slip__link--customer">
    <b class="slip__name">${customer.name}<small>${dealerName(customer.dealer)}</small></b>
    <span>${[customer.country && country(customer.country), t(customer.trade ? 'customer.is-trade' : 'customer.private')].filter(Boolean).join(' · ')}</span>
    <span>${customer.telephone}</span>
    <${FoundBy} hits=${hits} />
  <//></li>`;

const Slips = ({ title, pages, of: Row, id }) => html`<section aria-labelledby=${id}><h2 id=${id}>${title} <small>${countText(pages)}</small></h2>
  ${pages.rows.length ? html`<ul class="slips" id=${`${id}-list`}>${pages.rows.map((row) => html`<${Row} key=${row.number ?? row.id} row=${row} />`)}</ul>` : html`<p class="quiet">${t('work.nothing')}</p>`}
  <${More} pages=${pages} list=${`${id}-list`} of=${title} /></section>`;

const STATES = ['draft', 'issued', 'accepted', 'declined', 'lapsed', 'superseded'];

const StateChoice = ({ state, onState }) => html`<div class="state-choice" role="group" aria-label=${t('work.state')}>
  ${['', ...STATES].map((one) => html`<button key=${one} class="plain" aria-pressed=${state.value === one} onClick=${() => onState(one)}>${t(one ? `state.${one}` : 'work.all')}</button>`)}
</div>`;

const Found = ({ found: { quotations, enquiries, customers } }) => html`
  ${customers.rows?.length > 0 && html`<${Slips} id="customers" title=${t('work.customers')} pages=${customers} of=${CustomerRow} />`}
  ${quotations.rows && html`<${Slips} id="quotations" title=${t('work.quotations')} pages=${quotations} of=${QuotationRow} />`}
  ${enquiries.rows && html`<${Slips} id="enquiries" title=${t('work.enquiries')} pages=${enquiries} of=${EnquiryRow} />`}`;

export const Work = () => {
  const [q, state] = [useSignal(''), useSignal('')];
  const found = useFound(q.value, state.value);
  const problem = Object.values(found).find((pages) => pages.problem)?.problem;
  const begun = useRef(false);
  begun.current ||= Boolean(found.quotations.rows && (!may('enquire') || state.value || found.enquiries.rows));
  const { all, come } = useComing([may('read-requests') && 'requests', isDealer.value && 'orders'].filter(Boolean));
  const showIssued = () => {
    state.value = 'issued';
    document.getElementById('quotations')?.scrollIntoView();
  };
  return html`<div class="work">
    <h1>${t('work.title')}</h1><${SafetyStands} />
    ${may('watch') && !q.value && html`<${Watch} onIssued=${showIssued} />`}
    <div class="work__find">
      <${TextField} label=${t('work.find')} hint=${t('work.find-hint')} type="search" maxlength="200" value=${q.value} onWrite=${(text) => (q.value = text)} />
    </div>
    <${StateChoice} state=${state} onState=${(one) => (state.value = one)} />
    <p class="work__chase"><${Link} to="/chasing">${t('chasing.link')}<//>${may('set-retention') && html` · <${Link} to="/retention">${t('retention.link')}<//>`}${may('watch') && html` · <${Link} to="/watching">${t('watching.link')}<//>`}${may('see-people') && html` · <${Link} to="/people">${t('people.link')}<//>`}${may('see-tokens') && html` · <${Link} to="/house">${t(may('offer') ? 'nav.house' : 'nav.programs')}<//>`}</p>
    ${problem && html`<${Notice} problem=${problem} />`}
    ${may('read-requests') && !q.value && html`<${RequestsWaiting} onReady=${come('requests')} />`}
    ${isDealer.value && !q.value && html`<${Following} onReady=${come('orders')} />`}
    ${begun.current && (q.value || all) && html`<${Found} found=${found} />`}
  </div>`;
};
