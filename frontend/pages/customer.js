// One customer: who, all that was asked for and promised, the papers, and what becomes of the personal data.
import { useEffect } from 'preact/hooks';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { may } from '../state/session.js';
import { SHEETS, country, day } from '../format.js';
import { dealerName } from '../state/dealers.js';
import { newJobFor } from '../state/jobs.js';
import { go } from '../state/route.js';
import { useReading } from '../state/reading.js';
import { Link } from '../components/link/link.js';
import { Merging } from '../components/merging/merging.js';
import { BankDetails } from '../components/bank-details/bank-details.js';
import { PersonalData } from '../components/erasing/erasing.js';
import { Fact } from '../components/fact/fact.js';
import { History } from '../components/history/history.js';
import { QuotationRow } from './work.js';
import { OrderRow } from './orders.js';
import { Missing } from './not-found.js';

const Who = ({ page: { id, customer } }) => html`<dl class="cells customer__who">
  <${Fact} label=${t('customers.number')}>${id}<//>
  <${Fact} label=${t('customer.trade')}>${t(customer.trade ? 'customer.is-trade' : 'customer.private')}${customer.dealer && ` · ${dealerName(customer.dealer)}`}<//>
  <${Fact} label=${t('customer.country')}>${customer.country && country(customer.country)}<//>
  <${Fact} label=${t('customer.telephone')}>${customer.telephone && html`<a href=${`tel:${customer.telephone.replace(/[^+\d]/g, '')}`}>${customer.telephone}</a>`}<//>
  <${Fact} label=${t('customer.email')}>${customer.email}<//>
  <${Fact} label=${t('customer.address')}>${customer.address}<//>
  <${Fact} label=${t('customer.language')}>${t(`language.${customer.language}`)}<//>
  <${Fact} label=${t('customer.units')}>${t(`customer.${customer.units}`)}<//>
  <${Fact} label=${t('customer.tax-number')}>${customer.tax_number}<//></dl>`;

const currencies = (page) => [...new Set([...page.quotations.map((row) => row.total?.currency), ...page.orders.map((row) => row.account?.currency)].filter(Boolean))];

const reasonText = (why) => (why === 'retention' ? t('customers.by-retention') : why);

const Erased = ({ page: { erased } }) => erased && html`<p class="customer__erased" role="note">${t('customers.erased', { day: day(erased.at), by: erased.by, why: reasonText(erased.why) })}</p>`;

const Former = ({ page }) => page.former.length > 0 && !page.erased && html`<p>${t('customers.former', { names: page.former.map((one) => `${one.customer.name} (${one.id})`).join(', ') })}</p>`;

const EnquirySlip = ({ row }) => html`<li class="slip"><${Link} to=${row.quotations.length ? `/quotations/${row.quotations.at(-1)}` : `/enquiries/${row.id}`} class="slip__link slip__link--enquiry">
  <b class="slip__number">${row.reference}</b>
  <span>${row.donor.number_text || t('slip.no-donor')}</span>
  <span>${row.wanted_by ? t('customers.wanted-by', { day: day(row.wanted_by) }) : ''}</span>
  <span class="slip__day">${t('slip.changed', { day: day(row.updated_at) })}</span><//></li>`;

const Rows = ({ title, id, rows, of: Row }) => html`<section aria-labelledby=${id}><h2 id=${id}>${title} <small>${rows.length}</small></h2>
  ${rows.length ? html`<ul class="slips">${rows.map((row) => html`<${Row} key=${row.number ?? row.id} row=${row} />`)}</ul>` : html`<p class="quiet">${t('customers.none')}</p>`}</section>`;

const paperName = ({ sort, number, letter, language, size }) => `${t(`customers.paper.${sort}`)} ${number} ${letter} · ${t(`language.${language}`)}, ${SHEETS[size]}`;

const Papers = ({ papers }) => html`<section class="card" aria-labelledby="kept-title"><h2 id="kept-title">${t('customers.papers')}</h2>
  ${papers.length ? html`<ul class="documents">${papers.map((paper) => html`<li key=${paper.url} class="customer__paper"><a target="_blank" rel="noopener" href=${paper.url}>${paperName(paper)}</a></li>`)}</ul>` : html`<p class="quiet">${t('customers.no-papers')}</p>`}</section>`;

const Sheet = ({ page, onPage, onOut }) => html`<div class="work customer"><h1>${page.customer.name}</h1>
  <${Erased} page=${page} /><${Former} page=${page} /><${Who} page=${page} />
  ${currencies(page).length > 0 && html`<p class="quiet">${t('customers.currencies', { currencies: currencies(page).join(', ') })}</p>`}
  <div class="acts">${may('enquire') && !page.erased && html`<button class="button button--heavy" onClick=${() => newJobFor(page.customer)}>${t('customers.new-enquiry')}</button>`}</div>
  ${may('change-customers') && html`<${Merging} page=${page} onPage=${onPage} />`}
  <${Rows} id="enquiries" title=${t('work.enquiries')} rows=${page.enquiries} of=${EnquirySlip} />
  <${Rows} id="quotations" title=${t('work.quotations')} rows=${page.quotations} of=${QuotationRow} />
  <${Rows} id="orders" title=${t('nav.orders')} rows=${page.orders} of=${OrderRow} />
  <div class="customer__beneath"><${Papers} papers=${page.papers} />${page.history.length > 0 && html`<${History} history=${page.history} />`}${may('see-bank') && !page.erased && html`<${BankDetails} path=${`/api/customers/${page.id}/bank-details`} lead=${t('bank.customer-lead')} />`}<${PersonalData} page=${page} onPage=${onPage} onOut=${onOut} /></div></div>`;

export const CustomerPage = ({ customer }) => {
  const { body, problem, again } = useReading(`/api/customers/${customer}`);
  const page = body.value;
  useEffect(() => {
    // Whoever was merged into another is found at the other's address.
    if (page && String(page.id) !== customer) go(`/customers/${page.id}`, { instead: true });
  }, [page]);
  if (problem.value || !page) return html`<${Missing} problem=${problem.value} />`;
  return html`<${Sheet} page=${page} onPage=${(after) => (body.value = after)} onOut=${again} />`;
};
