// What the shell's price is made of, line by line, as the server worked it out.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { pricesShown } from '../../state/session.js';
import { money } from '../../format.js';

const Row = ({ line, currency }) => html`<tr>
  <th scope="row">${say(line.label) || line.line}</th>
  <td>${money(line.list_amount, currency)}</td>
  <td>${line.discount ? money(-line.discount, currency) : ''}</td>
  <td>${money(line.net, currency)}</td>
</tr>`;

const Table = ({ price, currency }) => html`<table class="ruled">
  <thead><tr><th scope="col">${t('price.line')}</th><th scope="col">${t('price.list')}</th>
    <th scope="col">${t('price.discount')}</th><th scope="col">${t('price.net')}</th></tr></thead>
  <tbody>${price.lines.map((line) => html`<${Row} key=${line.line} line=${line} currency=${currency} />`)}
    ${price.unpriced.map((row) => html`<tr key=${row.line}><th scope="row">${say(row.label) || row.line}</th><td colspan="3">${t('price.not-priced-ask')}</td></tr>`)}
  </tbody></table>`;

export const PriceLines = ({ job }) => {
  const answer = job.answer.value;
  if (!pricesShown.value || !answer?.price?.lines?.length) return null;
  return html`<details class="price-lines"><summary>${t('price.lines')}</summary><${Table} price=${answer.price} currency=${answer.currency} /></details>`;
};
