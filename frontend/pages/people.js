// Everybody who signs in here, and what each dealer pays. The manager's page.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { day } from '../format.js';
import { useReading } from '../state/reading.js';
import { AddPerson } from '../components/people/add-person.js';
import { FirstPassword } from '../components/people/first-password.js';
import { Folded } from '../components/folded/folded.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';
import { TradeTerms } from '../components/trade-terms/trade-terms.js';

const stateText = (one) => {
  if (one.disabled_at) return t('people.disabled-since', { day: day(one.disabled_at) });
  if (one.first_password) return t('people.not-yet');
  return t(one.mine ? 'people.you' : 'people.active');
};

const Row = ({ one }) => html`<li class="slip"><${Link} to=${`/people/${one.name}`} class=${`slip__link slip__link--person${one.disabled_at ? ' slip__link--out' : ''}`}>
  <b class="slip__name">${one.display_name}<small>${one.name}</small></b><span>${t(`role.${one.role}`)}${one.dealer_name && html`<small>${one.dealer_name}</small>`}</span>
  <span>${t(`language.${one.language}`)}</span><span class="slip__day">${stateText(one)}</span><//></li>`;

const Everybody = ({ read }) => {
  const [active, out] = [read.filter((one) => !one.disabled_at), read.filter((one) => one.disabled_at)];
  return html`<ul class="slips">${active.map((one) => html`<${Row} key=${one.name} one=${one} />`)}</ul>
    ${out.length > 0 && html`<details class="more"><summary>${t('people.disabled', { count: out.length })}</summary><ul class="slips">${out.map((one) => html`<${Row} key=${one.name} one=${one} />`)}</ul></details>`}`;
};

export const People = () => {
  const { body, problem, again } = useReading('/api/people');
  const told = useSignal(null);
  const take = (shut) => (added) => (shut(), (told.value = added), again());
  return html`<div class="work people"><h1>${t('people.title')}</h1><p class="quiet">${t('people.lead')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${told.value ? html`<${FirstPassword} told=${told.value} onDone=${() => (told.value = null)} />` : html`<${Folded} label=${t('people.add')}>${(shut) => html`<${AddPerson} onAdded=${take(shut)} />`}<//>`}
    ${body.value && html`<section aria-labelledby="everybody"><h2 id="everybody">${t('people.everybody')}</h2><${Everybody} read=${body.value.people} /></section><${TradeTerms} />`}</div>`;
};
