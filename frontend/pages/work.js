// What lies on the desk: enquiries and quotations, found with one search field, each with its state.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { may, sight } from '../state/session.js';
import { get, Refusal } from '../api.js';
import { day, lastDay } from '../format.js';
import { TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { Standing } from '../components/standing/standing.js';
import { dealerName } from '../state/dealers.js';
import { Notice } from '../components/notice/notice.js';

const PAUSE = 200;
const rowsOf = (body, name) => (Array.isArray(body) ? body : body?.[name] ?? body?.items ?? []);

const find = async (q, state, signal) => {
  const query = new URLSearchParams({ ...(q ? { q } : {}), ...(state ? { state } : {}) });
  const quotations = get(`/api/quotations?${query}`, { signal });
  const enquiries = may('enquire') && !state ? get(`/api/enquiries?${new URLSearchParams(q ? { q } : {})}`, { signal }) : { body: [] };
  const [found, asked] = await Promise.all([quotations, enquiries]);
  return { quotations: rowsOf(found.body, 'quotations'), enquiries: rowsOf(asked.body, 'enquiries') };
};

const useFound = (q, state, found, problem) => {
  const seen = sight.value;
  useEffect(() => {
    const giveUp = new AbortController();
    const timer = setTimeout(async () => {
      try {
        found.value = await find(q, state, giveUp.signal);
        problem.value = null;
      } catch (error) {
        if (error instanceof Refusal && error.status !== 401) problem.value = error.problem;
      }
    }, PAUSE);
    return () => {
      clearTimeout(timer);
      giveUp.abort();
    };
  }, [q, state, seen]);
};

const nameOf = (customer) => (typeof customer === 'string' ? customer : customer?.name ?? '');

const QuotationRow = ({ row }) => html`<li class="slip">
  <${Link} to=${`/quotations/${row.number}`} class="slip__link">
    <b class="slip__number">${row.number} ${row.letter ?? row.revisions?.at(-1)?.letter ?? ''}</b>
    <span class="slip__name">${nameOf(row.customer)}</span>
    <${Standing} state=${row.state} />
    <span class="slip__total">${dealerName(row.dealer)}</span>
    <span class="slip__day">${row.valid_until ? t('slip.valid', { day: lastDay(row.valid_until) }) : t('slip.changed', { day: day(row.updated_at) })}</span>
  <//></li>`;

const EnquiryRow = ({ row }) => html`<li class="slip">
  <${Link} to=${row.quotations?.length ? `/quotations/${row.quotations.at(-1)}` : `/enquiries/${row.id}`} class="slip__link">
    <b class="slip__number">${row.reference}</b>
    <span class="slip__name">${nameOf(row.customer)}</span>
    <span class="slip__donor">${row.donor?.number_text || t('slip.no-donor')}</span>
    <span class="slip__total">${row.quotations?.join(', ') ?? ''}</span>
    <span class="slip__day">${t('slip.changed', { day: day(row.updated_at) })}</span>
  <//></li>`;

const Slips = ({ title, rows, of: Row, id }) => html`<section aria-labelledby=${id}><h2 id=${id}>${title} <small>${rows.length}</small></h2>
  ${rows.length ? html`<ul class="slips">${rows.map((row) => html`<${Row} key=${row.number ?? row.id} row=${row} />`)}</ul>` : html`<p class="quiet">${t('work.nothing')}</p>`}</section>`;

const STATES = ['draft', 'issued', 'accepted', 'declined', 'lapsed', 'superseded'];

const StateChoice = ({ state }) => html`<div class="state-choice" role="group" aria-label=${t('work.state')}>
  ${['', ...STATES].map((one) => html`<button key=${one} class="plain" aria-pressed=${state.value === one} onClick=${() => (state.value = one)}>${t(one ? `state.${one}` : 'work.all')}</button>`)}
</div>`;

const isWorkshop = () => !may('enquire');

export const Work = () => {
  const q = useSignal('');
  const state = useSignal('');
  const found = useSignal(null);
  const problem = useSignal(null);
  useFound(q.value, state.value, found, problem);
  return html`<div class="work">
    <h1>${t(isWorkshop() ? 'work.title-workshop' : 'work.title')}</h1>
    <div class="work__find">
      <${TextField} label=${t('work.find')} hint=${t('work.find-hint')} type="search" value=${q.value} onWrite=${(text) => (q.value = text)} />
    </div>
    <${StateChoice} state=${state} />
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${found.value && html`<${Slips} id="quotations" title=${t('work.quotations')} rows=${found.value.quotations} of=${QuotationRow} />
      ${may('enquire') && !state.value && html`<${Slips} id="enquiries" title=${t('work.enquiries')} rows=${found.value.enquiries} of=${EnquiryRow} />`}`}
  </div>`;
};
