// Whom to write to about despatched shells: each with his letter, to be copied and sent by a person, then put on record.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { useReading } from '../../state/reading.js';
import { useSending } from '../../state/sending.js';
import { countryName } from '../../state/countries.js';
import { day, dayAndTime } from '../../format.js';
import { Copy } from '../letters/letters.js';
import { Folded } from '../folded/folded.js';
import { Link } from '../link/link.js';
import { Notice } from '../notice/notice.js';

const Letter = ({ owner }) => html`<div class="safety-letter"><p><b>${owner.subject}</b></p>
  <p class="safety-letter__text" lang=${owner.language}>${owner.text}</p>
  ${owner.untold && html`<p><b>${t('safety.letter-untold')}</b></p>`}
  <p class="acts"><${Copy} letter=${owner} text=${owner.text} /></p><p class="quiet">${t('letters.not-sent-here')}</p></div>`;

const Written = ({ fault, owner, onDone }) => {
  const { send, problem, busy } = useSending();
  const press = async () => (await send(`/api/safety-faults/${fault.id}/owners/${owner.id}/written`)) && onDone();
  if (owner.written) return html`<p class="safety-owner__written">${t('safety.written', { by: owner.written.by_name, at: dayAndTime(owner.written.at) })}</p>`;
  return html`<p><b>${t('safety.not-written')}</b></p>${may('write-safety') && html`<button class="button" disabled=${busy.value} onClick=${press}>${t('safety.write')}<span class="unseen"> ${owner.serial}</span></button>`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}`;
};

const reached = (owner) => [owner.email, owner.telephone, owner.dealer_name, owner.country && countryName(owner.country)].filter(Boolean).join(' · ');

const Owner = ({ fault, owner, onDone }) => html`<li class="safety-owner">
  <p><b>${owner.serial}</b> ${owner.customer} <${Link} to=${`/orders/${owner.order}`}>${owner.order}<//> <span class="quiet">${t('safety.despatched', { day: day(owner.despatched) })}</span><br />${reached(owner)}</p>
  <${Written} fault=${fault} owner=${owner} onDone=${onDone} />
  <${Folded} label=${html`${t('safety.letter')}<span class="unseen"> ${owner.serial}</span>`}>${() => html`<${Letter} owner=${owner} />`}<//></li>`;

export const Owners = ({ fault }) => {
  const { body, problem, again } = useReading(`/api/safety-faults/${fault.id}/owners`);
  if (problem.value) return html`<${Notice} problem=${problem.value} />`;
  if (!body.value) return null;
  const { owners } = body.value;
  return html`<h3>${t('safety.owners', { count: owners.length, left: owners.filter((one) => !one.written).length })}</h3>
    <ul class="safety-owners">${owners.map((one) => html`<${Owner} key=${one.id} fault=${fault} owner=${one} onDone=${again} />`)}</ul>
    <p><a class="button" href=${`/api/safety-faults/${fault.id}/owners.csv`}>${t('watching.csv')}</a></p>`;
};
