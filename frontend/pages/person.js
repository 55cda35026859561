// One person: what he is, what a manager can do about his sign-in, and what he did.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, knows } from '../state/language.js';
import { put, remove } from '../api.js';
import { day, dayAndTime } from '../format.js';
import { problemOf, useSending } from '../state/sending.js';
import { useReading } from '../state/reading.js';
import { FirstPassword } from '../components/people/first-password.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';
import { Sure } from '../components/sure/sure.js';
import { History } from '../components/history/history.js';

/** Where what was done can be looked at; the rest has no page of its own. */
const PLACES = { quotation: '/quotations/', order: '/orders/', customer: '/customers/', enquiry: '/enquiries/', 'book-draft': '/book-drafts/', person: '/people/' };
const PAGES = { tool: '/tools', 'safety-fault': '/safety', book: '/book', retention: '/retention', firm: '/bank-details', dealer: '/people' };

const placeOf = ({ thing, of }) => (PLACES[thing] ? PLACES[thing] + of : PAGES[thing]);

const thingText = ({ thing, of }) => t(knows(`deed.${thing}`) ? `deed.${thing}` : 'deed.other', { of });

const Deed = ({ one }) => html`<tr><td class="deeds__when"><time datetime=${one.at}>${dayAndTime(one.at)}</time></td>
  <td>${placeOf(one) ? html`<${Link} to=${placeOf(one)}>${thingText(one)}<//>` : thingText(one)}</td><td>${one.what}</td></tr>`;

const Deeds = ({ read, onPage }) => html`<section class="card" aria-labelledby="deeds"><h2 id="deeds">${t('people.deeds')}</h2>
  ${read.deeds.length ? html`<table class="ruled stacks deeds-table"><thead><tr><th>${t('people.when')}</th><th>${t('people.to-what')}</th><th>${t('people.what')}</th></tr></thead>
    <tbody>${read.deeds.map((one, at) => html`<${Deed} key=${at} one=${one} />`)}</tbody></table>` : html`<p class="quiet">${t('people.no-deeds')}</p>`}
  ${(read.page > 1 || read.more) && html`<div class="acts"><button class="button" disabled=${read.page === 1} onClick=${() => onPage(read.page - 1)}>${t('people.later')}</button>
    <button class="button" disabled=${!read.more} onClick=${() => onPage(read.page + 1)}>${t('people.earlier')}</button></div>`}</section>`;

const Acts = ({ one, onDone, onTold }) => {
  const { send, problem, busy } = useSending();
  const refused = useSignal(null);
  const at = `/api/people/${one.name}`;
  const turn = (asked) => asked.then(() => ((refused.value = null), onDone()), (error) => (refused.value = problemOf(error)));
  const reset = async () => {
    const told = await send(`${at}/password`);
    if (told) onTold(told);
  };
  const said = refused.value ?? problem.value;
  return html`<div class="acts">${one.disabled_at
    ? html`<button class="button button--heavy" onClick=${() => turn(remove(`${at}/disabled`))}>${t('people.enable')}</button>`
    : html`${one.mine ? html`<${Link} to="/password" class="button">${t('password.title')}<//>` : html`<${Sure} label=${t('people.reset')} says=${t('people.reset-means')} busy=${busy.value} onPress=${reset} />`}
      <${Sure} label=${t('people.disable')} says=${t(one.mine ? 'people.disable-you' : 'people.disable-means')} onPress=${() => turn(put(`${at}/disabled`))} />`}</div>
    ${said && html`<${Notice} problem=${said} />`}`;
};

const factsOf = (one) => [t(`role.${one.role}`), one.dealer_name, t('people.signs-in', { name: one.name }), t(`language.${one.language}`), t('people.since', { day: day(one.added_at) })].filter(Boolean).join(' · ');

export const PersonPage = ({ name }) => {
  const [page, told] = [useSignal(1), useSignal(null)];
  const { body, problem, again } = useReading(`/api/people/${name}?page=${page.value}`);
  const read = body.value;
  if (problem.value && !read) return html`<div class="work"><h1>${name}</h1><${Notice} problem=${problem.value} /></div>`;
  if (!read) return null;
  return html`<div class="work people"><p class="work__back"><${Link} to="/people">${t('people.title')}<//></p><h1>${read.display_name}</h1><p>${factsOf(read)}</p>
    ${read.disabled_at && html`<p><b>${t('people.disabled-since', { day: day(read.disabled_at) })}</b> ${t('people.disabled-keeps')}</p>`}
    ${read.first_password && !read.disabled_at && html`<p>${t('people.not-yet')}</p>`}
    ${told.value ? html`<${FirstPassword} told=${told.value} onDone=${() => (told.value = null)} />` : html`<${Acts} key=${read.disabled_at} one=${read} onDone=${again} onTold=${(made) => ((told.value = made), again())} />`}
    ${read.history.length > 0 && html`<${History} title=${t('people.history')} history=${read.history} />`}<${Deeds} read=${read} onPage=${(at) => (page.value = at)} /></div>`;
};
