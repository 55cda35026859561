// Two customers that may be one, side by side: of each field what is kept is picked before anything is merged.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { post } from '../../api.js';
import { problemOf } from '../../state/sending.js';
import { countryName } from '../../state/countries.js';
import { becauseText, countryText } from '../known/known.js';
import { Link } from '../link/link.js';
import { Notice } from '../notice/notice.js';

const FIELDS = ['name', 'trade', 'country', 'language', 'units', 'telephone', 'email', 'address', 'tax_number'];

const worded = (field, value) => {
  if (field === 'trade') return t(value ? 'customer.is-trade' : 'customer.private');
  if (value === '') return '–';
  return { country: countryName, language: (one) => t(`language.${one}`), units: (one) => t(`customer.${one}`) }[field]?.(value) ?? value;
};

const differing = (one, other) => FIELDS.filter((field) => one[field] !== other[field]);

/** Where the one says nothing, the other's word is taken unless somebody picks otherwise. */
const firstTake = (one, other) => differing(one, other).filter((field) => one[field] === '' && other[field] !== '');

const Pick = ({ field, side, value, picked, onPick }) => html`<td><label class="merging__pick">
  <input type="radio" name=${`merge-${field}`} checked=${picked} onChange=${onPick} aria-label=${`${t(`field.customer.${field}`)}: ${side}`} />
  <span>${worded(field, value)}</span></label></td>`;

const Fields = ({ page, like, take }) => {
  const [here, there] = [t('customers.here', { number: page.id }), t('customers.there', { number: like.id })];
  const rows = differing(page.customer, like.customer);
  const pick = (field, theirs) => (take.value = theirs ? [...take.value, field] : take.value.filter((one) => one !== field));
  if (rows.length === 0) return html`<p class="quiet">${t('customers.no-difference')}</p>`;
  return html`<table class="ruled merging__table"><thead><tr><th scope="col">${t('customers.field')}</th><th scope="col">${here}</th><th scope="col">${there}</th></tr></thead>
    <tbody>${rows.map((field) => html`<tr key=${field}><th scope="row">${t(`field.customer.${field}`)}</th>
      <${Pick} field=${field} side=${here} value=${page.customer[field]} picked=${!take.value.includes(field)} onPick=${() => pick(field, false)} />
      <${Pick} field=${field} side=${there} value=${like.customer[field]} picked=${take.value.includes(field)} onPick=${() => pick(field, true)} /></tr>`)}</tbody></table>`;
};

const Merge = ({ page, like, onPage }) => {
  const [take, problem] = [useSignal(firstTake(page.customer, like.customer)), useSignal(null)];
  const merge = () =>
    post(`/api/customers/${page.id}/merge`, { other: like.id, version: like.version, take: take.value }, { etag: `"${page.version}"` }).then(({ body }) => onPage(body), (error) => (problem.value = problemOf(error)));
  return html`<div class="merging"><p>${t('customers.merge-lead')}</p><${Fields} page=${page} like=${like} take=${take} />
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    <div class="acts"><button class="button button--heavy" onClick=${merge}>${t('customers.merge-now')}</button></div></div>`;
};

const Offer = ({ page, like, onPage }) => {
  const problem = useSignal(null);
  const apart = () => post(`/api/customers/${page.id}/apart`, { other: like.id }).then(({ body }) => onPage(body), (error) => (problem.value = problemOf(error)));
  return html`<li><p><${Link} to=${`/customers/${like.id}`}>${like.customer.name}<//>${countryText(like)}
      <small class="quiet"> ${becauseText(like)}</small></p>
    <details class="more"><summary>${t('customers.compare')}</summary><${Merge} page=${page} like=${like} onPage=${onPage} /></details>
    <button class="plain" onClick=${apart}>${t('customers.are-two')}<span class="unseen"> ${like.customer.name}</span></button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</li>`;
};

export const Merging = ({ page, onPage }) =>
  page.alike.length > 0 && html`<section class="card" aria-labelledby="alike-title"><h2 id="alike-title">${t('customers.alike')}</h2>
    <ul class="alike">${page.alike.map((like) => html`<${Offer} key=${like.id} page=${page} like=${like} onPage=${onPage} />`)}</ul></section>`;
