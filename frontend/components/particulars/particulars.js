// For whom, where it goes, on which price list. The three wheres stay three: the market is a choice of the
// specification, the customer's country and the delivery place are fields of their own.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { countryChoices, countryName, currencyOf } from '../../state/countries.js';
import { narrow } from '../../state/narrow.js';
import { book, choiceLabel, optionOf } from '../../state/book.js';
import { dealers, dealerOf } from '../../state/dealers.js';
import { isDealer } from '../../state/session.js';
import { write, writeTop, sellThrough, take, clear } from '../../state/edit.js';
import { TextField, TextArea, SelectField } from '../field/field.js';
import { Known } from '../known/known.js';

const lists = () => (book.value?.lists ?? []).map((list) => [list.id, list.label ? `${list.id} · ${say(list.label)}` : list.id]);
const dealerRows = () => [['', t('customer.no-dealer')], ...dealers.value.map((dealer) => [dealer.id, dealer.name])];

const into = (job, part, name) => (value) => write(job, [part, name], value);

/** The market is an answer of the specification: it is the same answer here and there. */
const Market = ({ job }) => {
  const option = book.value?.roles.market;
  const choices = optionOf(option)?.choices ?? [];
  return option && html`<${SelectField} label=${t('market.for')} hint=${t('wheres.market-hint')} value=${job.line.value.answers[option]?.choice ?? ''}
    options=${[['', t('market.open')], ...choices.map((choice) => [choice.id, say(choice.label)])]}
    onWrite=${(value) => (value ? take(job, option, value) : clear(job, option))} />`;
};

/** On a telephone the three places are told in a line, and opened where they are to be changed. */
const wheresText = (job) => {
  const { customer, delivery_place: place } = job.document.value;
  const market = job.line.value.answers[book.value?.roles.market]?.choice;
  return t('wheres.told', {
    market: market ? choiceLabel(book.value.roles.market, market) : t('market.open'),
    customer: countryName(customer.country),
    delivery: countryName(place.country),
  });
};

const Places = ({ job }) =>
  narrow.value ? html`<details class="more"><summary>${wheresText(job)}</summary><${Wheres} job=${job} /></details>` : html`<${Wheres} job=${job} />`;

const Wheres = ({ job }) => {
  const { customer, delivery_place: place } = job.document.value;
  return html`<fieldset class="fields wheres"><legend>${t('wheres.legend')}</legend>
    <${Market} job=${job} />
    <${SelectField} label=${t('customer.country')} hint=${t('wheres.customer-hint')} value=${customer.country} options=${countryChoices(customer.country)} onWrite=${into(job, 'customer', 'country')} />
    <${SelectField} label=${t('delivery.country')} hint=${t('wheres.delivery-hint')} value=${place.country} options=${countryChoices(place.country)} onWrite=${into(job, 'delivery_place', 'country')} />
  </fieldset>`;
};

/** Where the customer's own currency has no list: in what he is quoted. */
const noList = ({ customer, dealer, price_list: list }) => {
  const by = dealerOf(dealer);
  const paid = currencyOf(by?.country ?? customer.country);
  const all = book.value?.lists ?? [];
  if (!paid || !all.length || all.some(({ currency }) => currency === paid)) return undefined;
  return t('price.no-list', { paid, customer: by?.name || customer.name || t('price.no-list-customer'), currency: all.find(({ id }) => id === list)?.currency ?? list });
};

const First = ({ job }) => {
  const { customer, dealer, price_list: list } = job.document.value;
  return html`<div class="fields fields--four">
    <${TextField} label=${t('customer.name')} name="customer.name" autocomplete="off" maxlength="200" value=${customer.name} onWrite=${into(job, 'customer', 'name')} />
    <${SelectField} label=${t('customer.trade')} value=${customer.trade ? 'trade' : 'private'} options=${[['private', t('customer.private')], ['trade', t('customer.is-trade')]]}
      onWrite=${(value) => write(job, ['customer', 'trade'], value === 'trade')} />
    ${!isDealer.value && dealers.value.length > 0 && html`<${SelectField} label=${t('customer.dealer')} value=${dealer ?? ''} options=${dealerRows()}
      onWrite=${(value) => sellThrough(job, dealerOf(value))} />`}
    <${SelectField} label=${t('price.list-for')} hint=${noList(job.document.value)} value=${list} options=${lists()} onWrite=${(value) => writeTop(job, 'price_list', value)} />
    <${TextField} label=${t('customer.telephone')} name="customer.telephone" type="tel" autocomplete="off" maxlength="200" value=${customer.telephone} onWrite=${into(job, 'customer', 'telephone')} />
    <${TextField} label=${t('customer.email')} type="email" autocomplete="off" maxlength="200" value=${customer.email} onWrite=${into(job, 'customer', 'email')} />
  </div><${Known} job=${job} /><${Places} job=${job} />`;
};

const More = ({ job }) => {
  const { customer, delivery_place: place, wanted_by: wanted, note, revision_note: text } = job.document.value;
  return html`<div class="fields">
    <${SelectField} label=${t('customer.language')} value=${customer.language} options=${[['en', t('language.en')], ['de', t('language.de')]]} onWrite=${into(job, 'customer', 'language')} />
    <${SelectField} label=${t('customer.units')} value=${customer.units} options=${[['metric', t('customer.metric')], ['imperial', t('customer.imperial')]]} onWrite=${into(job, 'customer', 'units')} />
    <${TextField} label=${t('customer.tax-number')} autocomplete="off" maxlength="200" value=${customer.tax_number} onWrite=${into(job, 'customer', 'tax_number')} />
    <${TextField} label=${t('delivery.region')} autocomplete="off" maxlength="80" value=${place.region} onWrite=${into(job, 'delivery_place', 'region')} />
    <${TextField} label=${t('delivery.term')} hint=${t('delivery.term-hint')} autocomplete="off" maxlength="80" value=${place.term} onWrite=${into(job, 'delivery_place', 'term')} />
    <${TextField} label=${t('enquiry.wanted-by')} type="date" value=${wanted} onWrite=${(value) => writeTop(job, 'wanted_by', value)} />
    <${TextArea} label=${t('customer.address')} name="customer.address" rows="2" maxlength="1000" class="field--wide" value=${customer.address} onWrite=${into(job, 'customer', 'address')} />
    <${TextArea} label=${t('enquiry.note')} rows="2" maxlength="10000" class="field--wide" value=${note} onWrite=${(value) => writeTop(job, 'note', value)} />
    <${TextArea} label=${t('revision.note')} hint=${t('revision.note-hint')} rows="2" maxlength="10000" class="field--wide" value=${text} onWrite=${(value) => writeTop(job, 'revision_note', value)} />
  </div>`;
};

export const Particulars = ({ job }) => html`<section class="card" aria-labelledby="particulars-title">
  <h2 id="particulars-title">${t('particulars.title')}</h2>
  <${First} job=${job} />
  <details class="more"><summary>${t('particulars.more')}</summary><${More} job=${job} /></details>
</section>`;
