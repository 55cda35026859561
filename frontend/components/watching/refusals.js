// What was asked for and could not be built, by rule or tool.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { day, money } from '../../format.js';
import { Link } from '../link/link.js';
import { CountedTable } from './counted.js';
import { Sums } from './sums.js';

const Row = ({ one }) => html`<li class="slip"><${Link} to=${`/quotations/${one.quotation}`} class="slip__link slip__link--watched"><b>${one.quotation}</b>
  <span>${one.causes.map((cause) => cause.join(' + ')).join(' · ')}</span><span>${t(one.shells === 1 ? 'watching.shell' : 'watching.shells', { count: one.shells })}</span>
  <span class="slip__total">${one.net === null ? t('watching.no-nearest') : money(one.net, one.currency)}</span><span class="slip__day">${day(one.at)}</span><//></li>`;

export const RefusedRows = ({ rows }) => html`<ul class="slips">${rows.map((one, at) => html`<${Row} key=${at} one=${one} />`)}</ul>`;

const cellsOf = (one) => [one.shells, html`<${Sums} nets=${one.nets} />${one.unpriced > 0 && html`<small>${t('watching.unpriced', { count: one.unpriced })}</small>`}`];

const rowOf = (one) => ({ key: one.id, said: one.id, head: html`${say(one.reason) || one.id} <small class="id">${one.id}</small>`, count: one.enquiries, cells: cellsOf(one) });

export const Refusals = ({ read, csv }) => html`<section class="card" aria-labelledby="refused"><h2 id="refused">${t('watching.refused')}</h2>
  <p>${t('watching.refused-total', { enquiries: read.total.enquiries, shells: read.total.shells })} ${read.total.nets.length > 0 && html`${t('watching.nearest')}: <b class="sums"><${Sums} nets=${read.total.nets} /></b>`}</p>
  <p class="quiet">${t('watching.refused-lead')}</p>
  ${read.causes.length > 0 && html`<${CountedTable} labelled="refused" first=${t('watching.cause')} count=${t('watching.enquiries')} columns=${[t('watching.shells-head'), t('watching.nearest')]}
    rows=${read.causes.map(rowOf)} detail=${(id) => html`<${RefusedRows} rows=${read.refused.filter((one) => one.causes.some((cause) => cause.includes(id)))} />`} />
  <p><a class="button" href=${csv('refusals')}>${t('watching.csv')}</a></p>`}</section>`;
