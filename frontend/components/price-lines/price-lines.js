// What the price of the line in sight is made of, as the server worked it out: one shell line by line, then all its shells,
// tax and total, as on the paper. No sum is made here.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { pricesShown } from '../../state/session.js';
import { money, percent } from '../../format.js';

const less = (amount, currency) => (amount ? money(-amount, currency) : '');

const Row = ({ line, several, currency }) => html`<tr>
  <th scope="row">${say(line.label) || line.line}</th>
  <td>${line.list_amount === null ? '' : money(line.list_amount, currency)}</td>
  <td>${less(line.discount, currency)}</td>
  ${several && html`<td>${less(line.several, currency)}</td>`}
  <td>${money(line.net, currency)}</td>
</tr>`;

const Unpriced = ({ row, columns }) => html`<tr><th scope="row">${say(row.label) || row.line}</th><td colspan=${columns}>${t('price.not-priced-ask')}</td></tr>`;

const Sum = ({ words, amount, columns, strong = false, currency }) => html`<tr class=${strong ? 'price-lines__total' : ''}>
  <th scope="row" colspan=${columns}>${words}</th><td>${money(amount, currency)}</td></tr>`;

/** [words, amount, whether it stands out]: one shell, all of them, then tax and total in each case that may still hold. */
const sumsOf = (price, totals, shells) => [
  [t('price.one-shell'), price.net, false],
  ...(totals && shells > 1 ? [[t('price.shells', { shells }), totals.lines_net, false]] : []),
  ...(totals?.tax_cases ?? []).flatMap((one) => [
    [t('price.tax', { percent: percent(one.tax_percent) }), one.tax, false],
    [t('price.with-tax'), one.with_tax, true],
  ]),
];

const Table = ({ price, totals, shells, currency }) => {
  const several = price.lines.some((line) => line.several);
  const columns = several ? 4 : 3;
  return html`<div class="price-lines__frame" tabindex="0" role="group" aria-label=${t('price.lines')}><table class="ruled">
    <thead><tr><th scope="col">${t('price.line')}</th><th scope="col">${t('price.list')}</th><th scope="col">${t('price.discount')}</th>
      ${several && html`<th scope="col">${t('price.several')}</th>`}<th scope="col">${t('price.net')}</th></tr></thead>
    <tbody>${price.lines.map((line) => html`<${Row} key=${line.line} line=${line} several=${several} currency=${currency} />`)}
      ${price.unpriced.map((row) => html`<${Unpriced} key=${row.line} row=${row} columns=${columns} />`)}</tbody>
    ${price.net !== null && html`<tfoot>${sumsOf(price, totals, shells).map(([words, amount, strong], at) => html`<${Sum} key=${at} words=${words} amount=${amount} columns=${columns} strong=${strong} currency=${currency} />`)}</tfoot>`}
  </table></div>`;
};

/** With other lines or extras beside it, the discount for several and the total are the quotation's. */
const isAlone = ({ lines, extras }) => lines.length === 1 && !extras.length;

export const PriceLines = ({ job }) => {
  const answer = job.answer.value;
  if (!pricesShown.value || !answer?.price?.lines?.length) return null;
  return html`<details class="price-lines"><summary>${t('price.lines')}</summary>
    <${Table} price=${answer.price} totals=${answer.totals} shells=${job.line.value.quantity} currency=${answer.currency} />
    ${!isAlone(job.document.value) && html`<p class="quiet">${t('price.line-alone')}</p>`}</details>`;
};
