// What of shells was not right, by where; and how old the stock is.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { day } from '../../format.js';
import { Link } from '../link/link.js';
import { CountedTable } from './counted.js';

const AmissRow = ({ one }) => {
  const said = html`<b>${one.serial}</b><span>${one.why}</span><span>${t(`watching.standing.${one.standing}`)}</span><span class="slip__total">${one.minutes === null ? '' : t('watching.minutes', { count: one.minutes })}</span><span class="slip__day">${day(one.at)}</span>`;
  return html`<li class="slip">${one.order ? html`<${Link} to=${`/orders/${one.order}`} class="slip__link slip__link--watched">${said}<//>` : html`<div class="slip__link slip__link--watched">${said}</div>`}</li>`;
};

const standingsText = (standings, ...of) => of.filter((one) => standings[one]).map((one) => `${t(`watching.standing.${one}`)} ${standings[one]}`).join(' · ');

const Cell = ({ count, said }) => html`<span>${count}${said && html` <small>${said}</small>`}</span>`;

const amissOf = (one) => ({ key: one.subject, said: one.says, head: one.says, count: one.count, cells: [
  one.shells,
  html`<${Cell} count=${one.rework} said=${standingsText(one.standings, 'open', 'mended', 'withdrawn')} />`,
  html`<${Cell} count=${one.concessions} said=${standingsText(one.standings, 'asked', 'granted', 'refused')} />`,
  one.minutes ? t('watching.minutes', { count: one.minutes }) : '–',
] });

export const AmissTable = ({ read, csv }) => html`<section class="card" aria-labelledby="amiss"><h2 id="amiss">${t('watching.amiss')}</h2><p class="quiet">${t('watching.amiss-lead')}</p>
  ${read.amiss.length ? html`<${CountedTable} labelled="amiss" first=${t('watching.where')} count=${t('watching.cases')} columns=${[t('watching.shells-head'), t('watching.rework'), t('watching.concessions'), t('watching.took')]}
    rows=${read.amiss.map(amissOf)} detail=${(subject) => html`<ul class="slips">${read.amiss_rows.filter((one) => one.subject === subject).map((one, at) => html`<${AmissRow} key=${at} one=${one} />`)}</ul>`} />
  <p><a class="button" href=${csv('amiss')}>${t('watching.csv')}</a></p>` : html`<p>${t('watching.none-amiss')}</p>`}</section>`;

const bandText = (ages, at) => (ages[at].until === null ? t('watching.older', { days: ages[at - 1].until }) : t('watching.days', { from: at ? ages[at - 1].until + 1 : 0, until: ages[at].until }));

const AgedRow = ({ one }) => html`<li class="slip"><${Link} to="/calendar" class="slip__link slip__link--watched"><b>${one.number}</b><span>${say(one.name)}</span><span>${t('watching.old', { days: one.days })}</span>
  <span class="slip__total">${t('watching.ready', { day: day(one.ready) })}</span><span class="slip__day">${day(one.since)}</span><//></li>`;

export const StockAges = ({ read, csv }) => html`<section class="card" aria-labelledby="ages"><h2 id="ages">${t('watching.ages')}</h2><p class="quiet">${t('watching.ages-lead')}</p>
  ${read.stock.length ? html`<${CountedTable} labelled="ages" first=${t('watching.age')} count=${t('watching.shells-head')} columns=${[]}
    rows=${read.ages.map((one, at) => ({ key: String(one.until), said: bandText(read.ages, at), head: bandText(read.ages, at), count: one.count, cells: [] }))}
    detail=${(band) => html`<ul class="slips">${read.stock.filter((one) => String(one.band) === band).map((one) => html`<${AgedRow} key=${one.number} one=${one} />`)}</ul>`} />
  <p><a class="button" href=${csv('stock')}>${t('watching.csv')}</a></p>` : html`<p>${t('watching.none-stock')}</p>`}</section>`;
