// While a new customer is typed in: who is known already and may be he. Only an offer; whoever ignores it loses nothing.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { beKnown } from '../../state/edit.js';
import { countryName } from '../../state/countries.js';
import { useAnswer } from '../../state/reading.js';
import { Link } from '../link/link.js';

const PAUSE = 500;

/** Nobody is sought by fewer letters of a name. */
const ENOUGH = 4;

const askedFor = (document) => {
  const { id, name, country, telephone, email } = document.customer;
  return { id: id || null, name, country, telephone, email, dealer: document.dealer };
};

/** The number of the customer as the server has him, where the document does not say it itself. */
const numberOf = (job) => job.document.value.customer.id || job.server.value.enquiry?.customer?.id || null;

const useAlike = (job) => {
  const typed = askedFor(job.document.value);
  const enough = typed.name.trim().length >= ENOUGH || typed.telephone || typed.email;
  const question = !typed.id && enough ? JSON.stringify({ ...typed, id: numberOf(job) }) : null;
  return useAnswer('/api/customers/alike', question, { pause: PAUSE })?.alike ?? [];
};

export const countryText = ({ customer: { country } }) => country && `, ${countryName(country)}`;
export const becauseText = ({ grounds }) => t('customers.because', { grounds: grounds.map((ground) => t(`customers.ground.${ground}`)).join(', ') });

const Offer = ({ job, like }) => html`<li>
  <span><b>${like.customer.name}</b>${countryText(like)}<small>${becauseText(like)}</small></span>
  <button class="button" onClick=${() => beKnown(job, like.customer)}>${t('customers.it-is')}<span class="unseen"> ${like.customer.name}</span></button></li>`;

export const Known = ({ job }) => {
  const alike = useAlike(job);
  const number = numberOf(job);
  return html`<div role="status">${alike.length > 0 && html`<div class="known"><p>${t('customers.perhaps')}</p>
      <ul>${alike.map((like) => html`<${Offer} key=${like.id} job=${job} like=${like} />`)}</ul></div>`}</div>
    ${number && may('read-customers') && html`<p class="known__page"><${Link} to=${`/customers/${number}`}>${t('customers.page-of', { number })}<//></p>`}`;
};
