// For whom, where it goes, on which price list. The three wheres stay three: the market is a choice of the
// specification, the customer's country and the delivery place are fields of their own.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { book } from '../../state/book.js';
import { dealers } from '../../state/dealers.js';
import { role } from '../../state/session.js';
import { write, writeTop } from '../../state/edit.js';
import { country } from '../../format.js';
import { TextField, TextArea, SelectField } from '../field/field.js';

const COUNTRIES = ['GB', 'IE', 'DE', 'AT', 'CH', 'NL', 'BE', 'LU', 'FR', 'ES', 'PT', 'IT', 'DK', 'SE', 'NO', 'FI', 'PL', 'CZ', 'US', 'CA', 'ZA', 'NA', 'AU', 'NZ', 'JP'];
const countries = (now) => [...new Set([...COUNTRIES, now].filter(Boolean))].map((code) => [code, country(code)])
  .sort((one, other) => one[1].localeCompare(other[1]));

const lists = () => (book.value?.lists ?? []).map((list) => [list.id, list.label ? `${list.id} · ${say(list.label)}` : list.id]);
const dealerRows = () => [['', t('customer.no-dealer')], ...dealers.value.map((dealer) => [dealer.id, dealer.name])];

const Customer = ({ job }) => {
  const { customer, dealer } = job.document.value;
  const field = (name, more) => ({ label: t(`customer.${name}`), value: customer[name], onWrite: (value) => write(job, ['customer', name], value), ...more });
  return html`<fieldset class="fields"><legend>${t('customer.title')}</legend>
    <${TextField} ...${field('name', { autocomplete: 'off', class: 'field--wide', hint: t('customer.name-hint') })} />
    <${SelectField} ...${field('trade', { value: customer.trade ? 'trade' : 'private', options: [['private', t('customer.private')], ['trade', t('customer.is-trade')]],
      onWrite: (value) => write(job, ['customer', 'trade'], value === 'trade') })} />
    ${role.value !== 'dealer' && dealers.value.length > 0 && html`<${SelectField} label=${t('customer.dealer')} value=${dealer ?? ''} options=${dealerRows()}
      onWrite=${(value) => writeTop(job, 'dealer', value || null)} />`}
    <${SelectField} ...${field('country', { options: countries(customer.country) })} />
    <${SelectField} ...${field('language', { options: [['en', 'English'], ['de', 'Deutsch']] })} />
    <${SelectField} ...${field('units', { options: [['metric', t('customer.metric')], ['imperial', t('customer.imperial')]] })} />
    <${TextField} ...${field('telephone', { type: 'tel', autocomplete: 'off' })} />
    <${TextField} ...${field('email', { type: 'email', autocomplete: 'off' })} />
    <${TextArea} ...${field('address', { rows: 2, class: 'field--wide' })} />
  </fieldset>`;
};

const Wheres = ({ job }) => {
  const { delivery_place: place, price_list: list } = job.document.value;
  return html`<fieldset class="fields"><legend>${t('delivery.title')}</legend>
    <${SelectField} label=${t('delivery.country')} value=${place.country} options=${countries(place.country)}
      onWrite=${(value) => write(job, ['delivery_place', 'country'], value)} />
    <${TextField} label=${t('delivery.region')} value=${place.region} autocomplete="off" onWrite=${(value) => write(job, ['delivery_place', 'region'], value)} />
    <${SelectField} label=${t('price.list-for')} value=${list} options=${lists()} onWrite=${(value) => writeTop(job, 'price_list', value)} />
    <${TextField} label=${t('enquiry.wanted-by')} type="date" value=${job.document.value.wanted_by} onWrite=${(value) => writeTop(job, 'wanted_by', value)} />
    <${TextArea} label=${t('enquiry.note')} rows="2" class="field--wide" value=${job.document.value.note} onWrite=${(value) => writeTop(job, 'note', value)} />
    <${TextArea} label=${t('revision.note')} hint=${t('revision.note-hint')} rows="2" class="field--wide" value=${job.document.value.revision_note} onWrite=${(value) => writeTop(job, 'revision_note', value)} />
  </fieldset>`;
};

export const Particulars = ({ job }) => html`<section class="card" aria-labelledby="particulars-title">
  <h2 id="particulars-title">${t('particulars.title')}</h2>
  <${Customer} job=${job} /><${Wheres} job=${job} />
</section>`;
