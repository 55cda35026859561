// The documents about the order's money: each with its papers, none ever changed; a credit note names line and reason.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { may } from '../../state/session.js';
import { day, exact, money, percent } from '../../format.js';
import { readAmount } from '../../state/amounts.js';
import { useReading } from '../../state/reading.js';
import { useSending } from '../../state/sending.js';
import { AmountField } from '../amount-field/amount-field.js';
import { SelectField, TextArea, TextField, typed } from '../field/field.js';
import { Folded } from '../folded/folded.js';
import { Notice } from '../notice/notice.js';
import { SheetLinks } from '../papers/sheet-links.js';
import { Sure } from '../sure/sure.js';
import { WriteBill } from '../write-bill/write-bill.js';

const Papers = ({ document }) => html`<p class="document__papers">
  <${SheetLinks} papers=${document.papers} />
  ${document.ubl && html`<a href=${document.ubl}>UBL 2.1</a>`}</p>`;

const Sums = ({ document: { taxed, currency, with_tax: whole, prepaid, payable } }) => html`<p>${taxed.map((row) => t('document.taxed', { net: money(row.net, currency), percent: percent(row.percent), tax: money(row.tax, currency) })).join(' + ')} = <b class="amount">${money(whole, currency)}</b>
  ${prepaid ? html`<br />${t('document.payable', { prepaid: money(prepaid, currency), payable: money(payable, currency) })}` : ''}</p>`;

const StatedTax = ({ currency, stated: { currency: home, tax, rate, day: of, source } }) =>
  html`<p>${t('exchange.stated', { tax: money(tax, home), rate: exact(rate), currency, home, day: day(of), source })}</p>`;

const share = (rows, currency) => t('refund.share', { sum: money(rows.reduce((sum, row) => sum + row.with_tax, 0), currency), tax: money(rows.reduce((sum, row) => sum + row.tax, 0), currency) });

/** What a refund was decided by, as a person wrote it. */
const TOLD = ['stage', 'hours', 'resale'];

const Sheet = ({ order, document, onOrder }) => {
  const { send, problem, busy } = useSending();
  const { worksheet } = document;
  const done = order.documents.some(({ follows }) => follows === document.number);
  const press = async () => {
    const after = await send(`/api/orders/${order.number}/refund-worksheets/${document.number}/credit-notes`, undefined);
    if (after) onOrder(after);
  };
  return html`<p>${t('refund.refunded')}: ${share(worksheet.refunded, document.currency)} · ${t('refund.kept')}: ${share(worksheet.kept, document.currency)}</p>
    <p class="quiet">${TOLD.filter((one) => worksheet[one]).map((one) => `${t(`refund.${one}`)}: ${worksheet[one]}`).join(' · ')}</p>
    <p class="quiet">${document.why}</p>
    ${may('refund') && !done && html`<${Sure} label=${t('refund.credit')} busy=${busy.value} onPress=${press}
      says=${t('refund.credit-sure', { sum: money(worksheet.refunded.reduce((sum, row) => sum + row.with_tax, 0), document.currency) })} />`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}`;
};

/** Of what was granted on the order's shells one is picked; where nothing was, it is told in words. */
const Concession = ({ order, concession, granted }) => {
  const { body } = useReading(may('see-leaving') ? `/api/orders/${order.number}/leaving` : null);
  const had = (body.value?.shells ?? []).flatMap(({ serial, conceded }) => conceded.map((one) => [String(one.id), `${serial}: ${one.says} (${day(one.day)})`]));
  return html`${had.length > 0 && html`<${SelectField} class="field--wide" label=${t('credit.granted')} options=${[['', t('credit.granted-none')], ...had]} ...${typed(granted)} />`}
    ${!granted.value && html`<${TextField} label=${t('credit.concession')} hint=${t('credit.concession-hint')} autocomplete="off" ...${typed(concession)} />`}`;
};

const Credit = ({ order, document, onOrder, onDone }) => {
  const lines = document.lines.filter(({ left }) => left > 0);
  const [line, net, why, concession, granted] = [useSignal(String(lines[0].line)), useSignal(''), useSignal(''), useSignal(''), useSignal('')];
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const minor = readAmount(net.value, document.currency);
    if (minor === null) return (problem.value = { title: t('amount.not-read') });
    const body = { document: document.number, line: Number(line.value), net: minor, why: why.value, concession: granted.value ? '' : concession.value, granted: granted.value ? Number(granted.value) : null };
    const after = await send(`/api/orders/${order.number}/credit-notes`, body);
    if (!after) return;
    onDone();
    onOrder(after);
  };
  return html`<form class="money-form" onSubmit=${press}>
    <${SelectField} class="field--wide" label=${t('credit.line')} options=${lines.map((one) => [String(one.line), `${one.line}. ${say(one.name)} (${t('credit.left', { left: money(one.left, document.currency) })})`])} ...${typed(line)} />
    <${AmountField} label=${t('credit.net', { currency: document.currency })} currency=${document.currency} required ...${typed(net)} />
    <${Concession} order=${order} concession=${concession} granted=${granted} />
    <${TextArea} class="field--wide" label=${t('credit.why')} required rows="2" ...${typed(why)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('credit.write')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const refers = ({ credits, credited_line: line, credited_by: by }) =>
  [credits && (line ? t('document.credits-line', { line, document: credits }) : t('document.credits', { document: credits })), by.length && t('document.credited-by', { documents: by.join(', ') })].filter(Boolean).join(' · ');

const grantedText = ({ subject, serial, day: on }) => t('document.granted', { subject: say(subject), serial, day: day(on) });

const Document = ({ order, document, onOrder }) => html`<li class="document">
  <h3>${t(`document.${document.kind}`)} ${document.number} <small>${day(document.dated)}${document.worksheet ? '' : `, ${t('document.tax-point', { day: day(document.tax_point) })}`}</small></h3>
  ${document.worksheet ? html`<${Sheet} order=${order} document=${document} onOrder=${onOrder} />` : html`<${Sums} document=${document} />`}
  ${document.stated && html`<${StatedTax} currency=${document.currency} stated=${document.stated} />`}
  ${refers(document) && html`<p>${refers(document)}</p>`}
  ${document.why && !document.worksheet && html`<p class="quiet">${document.why}${document.concession ? ` (${document.concession})` : ''}${document.granted && html`<br />${grantedText(document.granted)}`}</p>`}
  <${Papers} document=${document} />
  ${may('bill') && document.lines.some(({ left }) => left > 0) && html`<${Folded} label=${t('credit.open')}>${(close) => html`<${Credit} order=${order} document=${document} onOrder=${onOrder} onDone=${close} />`}<//>`}</li>`;

const balanceSays = ({ payable, currency }) => [payable !== null && t('document.balance-sum', { sum: money(payable, currency) }), t('document.for-good')].filter(Boolean).join(' ');

const Balance = ({ order, onOrder }) =>
  html`<p class="quiet">${t('document.balance-hint')}</p><${WriteBill} order=${order} path=${`/api/orders/${order.number}/invoices`} body=${{}} label=${t('document.write-balance')} says=${balanceSays(order.account)} onOrder=${onOrder} />`;

const hasBalance = (order) => order.documents.some(({ kind, lines }) => kind === 'balance' && lines.some(({ left }) => left > 0));

export const OrderDocuments = ({ order, onOrder }) => html`<section class="card" aria-labelledby="documents-title"><h2 id="documents-title">${t('document.title')}</h2>
  ${order.documents.length ? html`<ul class="documents">${order.documents.map((document) => html`<${Document} key=${document.number} order=${order} document=${document} onOrder=${onOrder} />`)}</ul>` : html`<p class="quiet">${t('document.none')}</p>`}
  ${may('bill') && order.state !== 'cancelled' && !hasBalance(order) && html`<${Balance} order=${order} onOrder=${onOrder} />`}</section>`;
