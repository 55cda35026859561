// Quotations that are out and unanswered: what lapses first at the top, with the last word to the customer.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { usePages } from '../state/pages.js';
import { day, lastDay, money } from '../format.js';
import { dealerName } from '../state/dealers.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';
import { More } from '../components/more/more.js';

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
  const which = useSignal('in-date');
  const pages = usePages(`/api/chasing?which=${which.value}`, 'chased', (row) => row.number);
  return html`<div class="work"><h1>${t('chasing.title')}</h1><p class="quiet">${t('chasing.lead')}</p>
    <div class="state-choice" role="group" aria-label=${t('work.state')}>
      ${WHICH.map((one) => html`<button key=${one} class="plain" aria-pressed=${which.value === one} onClick=${() => (which.value = one)}>${t(`chasing.${one}`)}</button>`)}</div>
    ${pages.problem && html`<${Notice} problem=${pages.problem} />`}
    ${pages.rows && (pages.rows.length ? html`<ul class="slips" id="chasing-list">${pages.rows.map((row) => html`<${Row} key=${row.number} row=${row} />`)}</ul>` : html`<p class="quiet">${t('work.nothing')}</p>`)}
    <${More} pages=${pages} list="chasing-list" of=${t('chasing.title')} /></div>`;
};
