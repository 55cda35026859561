// Quotations that are out and unanswered: what lapses first at the top, with the last word to the customer.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { sight } from '../state/session.js';
import { get } from '../api.js';
import { day, lastDay, money } from '../format.js';
import { dealerName } from '../state/dealers.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';
import { problemOf } from '../components/approvals/approvals.js';

const totalOf = ({ total }) => (total ? total.with_tax.map((amount) => money(amount, total.currency)).join(' / ') : '');

const counted = (name, count) => t(Math.abs(count) === 1 ? `${name}-one` : name, { days: Math.abs(count) });

const leftText = ({ left }) => {
  if (left === 0) return t('chasing.today');
  return counted(left > 0 ? 'chasing.left' : 'chasing.ago', left);
};

const lastText = ({ last, issued_at: issued, silent }) => {
  const said = last ? t('chasing.last', { kind: t(`letters.${last.kind}`), day: day(last.sent_on), by: last.by_name }) : t('chasing.only-issued', { day: day(issued) });
  return silent > 0 ? `${said} ${counted('chasing.silent', silent)}` : said;
};

const Row = ({ row }) => html`<li class="slip">
  <${Link} to=${`/quotations/${row.number}`} class="slip__link slip__link--chase">
    <b class="slip__number">${row.number} ${row.letter}</b>
    <span class="slip__name">${row.customer}<small>${[dealerName(row.dealer) !== row.customer && dealerName(row.dealer), row.telephone, row.email].filter(Boolean).join(' · ')}</small></span>
    <span class="chase__left">${leftText(row)}<small>${t('slip.valid', { day: lastDay(row.valid_until) })}</small></span>
    <span class="slip__waits">${lastText(row)}${(row.parts.length > 0 || row.approvals.length > 0) && html`<small>${t('slip.parts', { ids: [...row.parts, ...row.approvals].join(', ') })}</small>`}</span>
    <span class="slip__total">${totalOf(row)}${row.total && html`<small>${t('totals.with-tax')}</small>`}</span>
  <//></li>`;

const WHICH = ['in-date', 'lapsed'];

export const Chasing = () => {
  const [held, problem, which, page] = [useSignal(null), useSignal(null), useSignal('in-date'), useSignal(1)];
  useEffect(() => {
    let here = true;
    get(`/api/chasing?which=${which.value}&page=${page.value}`).then(({ body }) => here && (held.value = body), (error) => here && (problem.value = problemOf(error)));
    return () => (here = false);
  }, [which.value, page.value, sight.value]);
  const choose = (one) => ((page.value = 1), (which.value = one));
  return html`<div class="work"><h1>${t('chasing.title')}</h1><p class="quiet">${t('chasing.lead')}</p>
    <div class="state-choice" role="group" aria-label=${t('work.state')}>
      ${WHICH.map((one) => html`<button key=${one} class="plain" aria-pressed=${which.value === one} onClick=${() => choose(one)}>${t(`chasing.${one}`)}</button>`)}</div>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${held.value && (held.value.chased.length ? html`<ul class="slips">${held.value.chased.map((row) => html`<${Row} key=${row.number} row=${row} />`)}</ul>` : html`<p class="quiet">${t('work.nothing')}</p>`)}
    <div class="acts">${page.value > 1 && html`<button class="button" onClick=${() => (page.value -= 1)}>${t('list.back')}</button>`}
      ${held.value?.more && html`<button class="button" onClick=${() => (page.value += 1)}>${t('list.next')}</button>`}</div></div>`;
};
