// Does it hold? The manager says what is supposed to go wrong, and sees how many promises would be kept, at which load.
import { html } from '../html.js';
import { t } from '../state/language.js';
import { useUnderway } from '../state/reading.js';
import { dayAndTime, percent, share, wholeNumber } from '../format.js';
import { Chart } from '../components/outlook/chart.js';
import { SupposedForm } from '../components/outlook/supposed.js';
import { Notice } from '../components/notice/notice.js';

const AGAIN = 500;

const Row = ({ one, line }) => html`<tr><th scope="row">${percent(one.planned)}${one.planned === line && html` <small>${t('outlook.line')}</small>`}</th>
  <td>${share(one.kept)}</td><td>${t('outlook.nine-value', { days: one.nine_in_ten })}</td><td>${share(one.poor_year)}</td></tr>`;

const Table = ({ body }) => html`<div class="outlook__table" role="region" tabindex="0" aria-label=${t('outlook.table')}><table><thead><tr><th scope="col">${t('outlook.planned')}</th><th scope="col">${t('outlook.kept', { width: body.width })}</th><th scope="col">${t('outlook.nine')}</th><th scope="col">${t('outlook.poor')}</th></tr></thead>
  <tbody>${body.held.map((one) => html`<${Row} key=${one.planned} one=${one} line=${body.line} />`)}</tbody></table></div>`;

const Done = ({ body }) => html`<section class="card"><p class="outlook__says">${body.says}</p>
  <${Table} body=${body} /><${Chart} held=${body.held} width=${body.width} />
  <details><summary>${t('outlook.basis')}</summary><ul class="outlook__basis">${body.basis.map((one) => html`<li key=${one}>${one}</li>`)}</ul></details>
  <p class="quiet">${dayAndTime(body.at)} · ${body.by_name} · ${t('outlook.seed')} ${body.supposed.seed}</p></section>`;

const State = ({ body }) => {
  if (body.state === 'underway') return html`<p>${t('outlook.underway', { done: wholeNumber(body.done), of: wholeNumber(body.of) })}</p><progress max=${body.of || 1} value=${body.done} aria-label=${t('outlook.title')}></progress>`;
  return body.state === 'done' ? null : html`<p>${t(`outlook.${body.state}`)}</p>`;
};

export const OutlookPage = () => {
  const { body: { value: body }, problem, begin } = useUnderway('/api/outlook', AGAIN);
  return html`<div class="work outlook"><h1>${t('outlook.title')}</h1><p class="quiet">${t('outlook.lead')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${body && html`<${SupposedForm} supposed=${body.supposed} busy=${body.state === 'underway'} onBegin=${begin} />
      <div class="outlook__state" role="status"><${State} body=${body} /></div>
      ${body.state === 'done' && html`<${Done} body=${body} />`}`}</div>`;
};
