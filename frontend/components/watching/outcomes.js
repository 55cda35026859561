// What customers said no to and why; and what was taken off, by whom it was quoted to.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { day, money, share } from '../../format.js';
import { Link } from '../link/link.js';
import { CountedTable } from './counted.js';
import { Sums } from './sums.js';

const Slip = ({ one, said, sum }) => html`<li class="slip"><${Link} to=${`/quotations/${one.number}/${one.letter}`} class="slip__link slip__link--watched"><b>${one.number} ${one.letter}</b>
  <span>${said}</span><span></span><span class="slip__total">${sum}</span><span class="slip__day">${day(one.at)}</span><//></li>`;

const DeclinedRows = ({ rows }) => html`<ul class="slips">${rows.map((one) => html`<${Slip} key=${one.number + one.letter} one=${one} said=${one.note} sum=${money(one.net, one.currency)} />`)}</ul>`;

export const Declined = ({ read, csv }) => html`<section class="card" aria-labelledby="declined"><h2 id="declined">${t('watching.declined')}</h2>
  <p class="quiet">${t('watching.declined-lead')}</p>
  ${read.declined.length ? html`<${CountedTable} labelled="declined" first=${t('watching.why')} count=${t('watching.quotations')} columns=${[t('watching.net')]}
    rows=${read.reasons.map((one) => ({ key: one.reason, said: t(`acts.reason.${one.reason}`), head: t(`acts.reason.${one.reason}`), count: one.count, cells: [html`<${Sums} nets=${one.nets} />`] }))}
    detail=${(reason) => html`<${DeclinedRows} rows=${read.declined.filter((one) => one.reason === reason)} />`} />
  <p><a class="button" href=${csv('declined')}>${t('watching.csv')}</a></p>` : html`<p>${t('watching.none-declined')}</p>`}</section>`;

const nameOf = (one) => one.dealer_name ?? one.dealer ?? t('watching.own-customers');

const offText = (one) => `${money(one.off, one.currency)} (${share((100 * one.off) / one.listed)})`;

const DiscountRows = ({ rows }) => html`<ul class="slips">${rows.map((one) => html`<${Slip} key=${one.number} one=${one} said=${t('watching.of-listed', { sum: money(one.listed, one.currency) })} sum=${offText(one)} />`)}</ul>`;

const keyOf = (one) => `${one.dealer ?? ''} ${one.currency}`;

export const Discounts = ({ read, csv }) => html`<section class="card" aria-labelledby="given"><h2 id="given">${t('watching.given')}</h2><p class="quiet">${t('watching.given-lead')}</p>
  ${read.given.length ? html`<${CountedTable} labelled="given" first=${t('watching.to-whom')} count=${t('watching.quotations')} columns=${[t('watching.listed'), t('watching.off')]}
    rows=${read.given.map((one) => ({ key: keyOf(one), said: nameOf(one), head: nameOf(one), count: one.count, cells: [money(one.listed, one.currency), offText(one)] }))}
    detail=${(key) => html`<${DiscountRows} rows=${read.discounted.filter((one) => keyOf(one) === key)} />`} />
  <p><a class="button" href=${csv('discounts')}>${t('watching.csv')}</a></p>` : html`<p>${t('watching.none-given')}</p>`}</section>`;
