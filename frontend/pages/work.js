// What lies on the desk: enquiries and quotations, found with one search field, each with its state.
import { useEffect } from 'preact/hooks';
import { batch, useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { isDealer, may, pricesShown, sight } from '../state/session.js';
import { get, Refusal } from '../api.js';
import { country, day, lastDay, money } from '../format.js';
import { TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { Standing } from '../components/standing/standing.js';
import { dealerName } from '../state/dealers.js';
import { shortYesText } from '../components/earlier-yes/earlier-yes.js';
import { FoundBy } from '../components/found-by/found-by.js';
import { Notice } from '../components/notice/notice.js';
import { RequestsWaiting } from '../components/requests/requests.js';
import { Following } from '../components/following/following.js';
import { Watch } from '../components/watch/watch.js';

const PAUSE = 200;

const find = async (q, state, page, signal) => {
  const query = new URLSearchParams({ ...(q ? { q } : {}), ...(page > 1 ? { page } : {}) });
  const inState = new URLSearchParams({ ...Object.fromEntries(query), ...(state ? { state } : {}) });
  const enquiries = may('enquire') && !state ? get(`/api/enquiries?${query}`, { signal }) : { body: { enquiries: [], more: false } };
  const customers = may('read-customers') && q.trim() && !state ? get(`/api/customers?${query}`, { signal }) : { body: { customers: [], more: false } };
  const [found, asked, known] = await Promise.all([get(`/api/quotations?${inState}`, { signal }), enquiries, customers]);
  const more = [found, asked, known].some(({ body }) => body.more);
  return { quotations: found.body.quotations, enquiries: asked.body.enquiries, customers: known.body.customers, more, page };
};

const together = (before, next, name) => [...new Map([...before, ...next].map((row) => [row[name], row])).values()];

/** Pages are joined: what was found before stays above, and nothing stands there twice. */
const joined = (before, next) =>
  next.page === 1 || !before
    ? next
    : {
        ...next,
        quotations: together(before.quotations, next.quotations, 'number'),
        enquiries: together(before.enquiries, next.enquiries, 'id'),
        customers: together(before.customers, next.customers, 'id'),
      };

const useFound = (q, state, page, found, problem) => {
  const seen = sight.value;
  useEffect(() => {
    const giveUp = new AbortController();
    const timer = setTimeout(async () => {
      try {
        found.value = joined(found.value, await find(q, state, page, giveUp.signal));
        problem.value = null;
      } catch (error) {
        if (error instanceof Refusal && error.status !== 401) problem.value = error.problem;
      }
    }, found.value ? PAUSE : 0);
    return () => {
      clearTimeout(timer);
      giveUp.abort();
    };
  }, [q, state, page, seen]);
};

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

const Slips = ({ title, rows, of: Row, id }) => html`<section aria-labelledby=${id}><h2 id=${id}>${title} <small>${rows.length}</small></h2>
  ${rows.length ? html`<ul class="slips">${rows.map((row) => html`<${Row} key=${row.number ?? row.id} row=${row} />`)}</ul>` : html`<p class="quiet">${t('work.nothing')}</p>`}</section>`;

const STATES = ['draft', 'issued', 'accepted', 'declined', 'lapsed', 'superseded'];

const StateChoice = ({ state, onState }) => html`<div class="state-choice" role="group" aria-label=${t('work.state')}>
  ${['', ...STATES].map((one) => html`<button key=${one} class="plain" aria-pressed=${state.value === one} onClick=${() => onState(one)}>${t(one ? `state.${one}` : 'work.all')}</button>`)}
</div>`;

/** Customers are listed only where something is sought: else the desk shows what lies on it. */
const Found = ({ found, inState, sought, onMore }) => html`
  ${sought && !inState && found.customers.length > 0 && html`<${Slips} id="customers" title=${t('work.customers')} rows=${found.customers} of=${CustomerRow} />`}
  <${Slips} id="quotations" title=${t('work.quotations')} rows=${found.quotations} of=${QuotationRow} />
  ${may('enquire') && !inState && html`<${Slips} id="enquiries" title=${t('work.enquiries')} rows=${found.enquiries} of=${EnquiryRow} />`}
  ${found.more && html`<button class="button" onClick=${onMore}>${t('work.more')}</button>`}`;

export const Work = () => {
  const [q, state, page] = [useSignal(''), useSignal(''), useSignal(1)];
  const [found, problem] = [useSignal(null), useSignal(null)];
  useFound(q.value, state.value, page.value, found, problem);
  // What stands above the lists comes first, so that nothing that is being read moves.
  const missing = useSignal([...(may('read-requests') ? ['requests'] : []), ...(isDealer.value ? ['orders'] : [])]);
  const come = (name) => () => (missing.value = missing.value.filter((one) => one !== name));
  const ask = (asked, value) => batch(() => ((asked.value = value), (page.value = 1)));
  const showIssued = () => {
    ask(state, 'issued');
    document.getElementById('quotations')?.scrollIntoView();
  };
  return html`<div class="work">
    <h1>${t('work.title')}</h1>
    ${may('watch') && !q.value && html`<${Watch} onIssued=${showIssued} />`}
    <div class="work__find">
      <${TextField} label=${t('work.find')} hint=${t('work.find-hint')} type="search" maxlength="200" value=${q.value} onWrite=${(text) => ask(q, text)} />
    </div>
    <${StateChoice} state=${state} onState=${(one) => ask(state, one)} />
    <p class="work__chase"><${Link} to="/chasing">${t('chasing.link')}<//>${may('set-retention') && html` · <${Link} to="/retention">${t('retention.link')}<//>`}${may('see-tokens') && html` · <${Link} to="/house">${t(may('offer') ? 'nav.house' : 'nav.programs')}<//>`}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${may('read-requests') && !q.value && html`<${RequestsWaiting} onReady=${come('requests')} />`}
    ${isDealer.value && !q.value && html`<${Following} onReady=${come('orders')} />`}
    ${found.value && (q.value || !missing.value.length) && html`<${Found} found=${found.value} inState=${state.value} sought=${Boolean(q.value.trim())} onMore=${() => (page.value += 1)} />`}
  </div>`;
};
