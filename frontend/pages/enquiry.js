// An enquiry that has no quotation yet: what was asked, and one press to quote for it.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { get, post, freshKey, Refusal } from '../api.js';
import { go } from '../state/route.js';
import { day } from '../format.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';
import { NotFound } from './not-found.js';

const useEnquiry = (id) => {
  const held = useSignal(null);
  useEffect(() => {
    get(`/api/enquiries/${id}`).then(({ body }) => (held.value = { enquiry: body }), (error) => (held.value = { problem: error.problem ?? { title: t('away.title') }, status: error.status }));
  }, [id]);
  return held.value;
};

const Quote = ({ enquiry }) => {
  const problem = useSignal(null);
  const key = useSignal(freshKey());
  const press = async () => {
    try {
      const place = { country: enquiry.customer.country || 'GB' };
      const { body } = await post(`/api/enquiries/${enquiry.id}/quotations`, { price_list: 'GBP', delivery_place: place }, { key: key.value });
      go(`/quotations/${body.number}`);
    } catch (error) {
      problem.value = error instanceof Refusal ? error.problem : { title: t('away.title') };
    }
  };
  return html`<button class="button button--heavy" onClick=${press}>${t('enquiry.quote')}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}`;
};

export const Enquiry = ({ enquiry: id }) => {
  const held = useEnquiry(id);
  if (!held) return html`<p class="quiet waiting">${t('waiting')}</p>`;
  if (held.status === 404) return html`<${NotFound} />`;
  if (held.problem) return html`<${Notice} problem=${held.problem} />`;
  const { enquiry } = held;
  return html`<div class="work"><h1>${t('enquiry.heading', { reference: enquiry.reference })}</h1>
    <section class="card"><h2>${enquiry.customer.name}</h2><p>${enquiry.donor?.number_text || t('slip.no-donor')}</p><p>${enquiry.note}</p>
      <p class="quiet">${t('slip.changed', { day: day(enquiry.updated_at) })}</p>
      <ul>${(enquiry.quotations ?? []).map((number) => html`<li key=${number}><${Link} to=${`/quotations/${number}`}>${number}<//></li>`)}</ul>
      <${Quote} enquiry=${enquiry} /></section></div>`;
};
