// Personal data: handed out whole, or erased in two steps. What goes and what stays is told before the second.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may, pricesShown } from '../../state/session.js';
import { download, get, post } from '../../api.js';
import { problemOf } from '../../state/sending.js';
import { TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

const Listed = ({ prefix, of }) =>
  html`<ul class="erasing__list">${Object.entries(of).filter(([, names]) => names.length).map(([sort, names]) => html`<li key=${sort}><b>${t(`${prefix}.${sort}`)}</b> ${names.join(', ')}</li>`)}</ul>`;

const Stays = ({ told }) =>
  Object.values(told.stays).some((names) => names.length)
    ? html`<${Listed} prefix="customers.stays" of=${told.stays} /><p>${told.why_stays}</p>`
    : html`<p>${t('customers.nothing-stays')}</p>`;

const Second = ({ told, onPage, onLeave, onProblem }) => {
  const why = useSignal('');
  const erase = () => post(`/api/customers/${told.id}/erasure`, { why: why.value, seen: told.seen }).then(({ body }) => onPage(body), (error) => onProblem(problemOf(error)));
  return html`<div class="erasing">
    <h3>${t('customers.goes-title')}</h3><p>${t('customers.goes-always')}</p><${Listed} prefix="customers.goes" of=${told.goes} />
    <h3>${t('customers.stays-title')}</h3><${Stays} told=${told} />
    <h3>${t('customers.beyond-title')}</h3><p>${told.beyond}</p>
    <${TextField} label=${t('customers.why')} hint=${t('customers.why-hint')} maxlength="200" value=${why.value} onWrite=${(text) => (why.value = text)} />
    <div class="acts"><button class="button button--heavy" disabled=${!why.value.trim()} onClick=${erase}>${t('customers.erase-now')}</button>
      <button class="button" onClick=${onLeave}>${t('customers.leave')}</button></div></div>`;
};

const Erase = ({ page, onPage }) => {
  const [told, problem] = [useSignal(null), useSignal(null)];
  const look = () => get(`/api/customers/${page.id}/erasure`).then(({ body }) => ((told.value = body), (problem.value = null)), (error) => (problem.value = problemOf(error)));
  const stopped = (why) => ((problem.value = why), (told.value = null));
  return html`${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${told.value ? html`<${Second} told=${told.value} onPage=${onPage} onLeave=${() => (told.value = null)} onProblem=${stopped} />` : html`<button class="button" onClick=${look}>${t('customers.erase-ask')}</button>`}`;
};

const HandOut = ({ page, onOut }) => {
  const problem = useSignal(null);
  const fetchAll = () => download(`/api/customers/${page.id}/everything`, `customer-${page.id}.zip`).then(onOut, (error) => (problem.value = problemOf(error)));
  return html`<p>${t('customers.everything-lead')}</p>
    ${pricesShown.value ? html`<button class="button" onClick=${fetchAll}>${t('customers.everything')}</button>` : html`<p class="quiet">${t('papers.hidden')}</p>`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}`;
};

export const PersonalData = ({ page, onPage, onOut }) =>
  may('hand-out-data') && html`<section class="card" aria-labelledby="data-title"><h2 id="data-title">${t('customers.data')}</h2>
    <${HandOut} page=${page} onOut=${onOut} />
    ${may('erase-data') && !page.erased && html`<div class="erasing__ask"><p>${t('customers.erase-lead')}</p><${Erase} page=${page} onPage=${onPage} /></div>`}</section>`;
