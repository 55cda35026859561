// The customer's parts of an order: each with its tag, how it stands, by when it is needed. Nothing where it needs none.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { useReading } from '../../state/reading.js';
import { useReady } from '../../state/coming.js';
import { PartRow } from '../customers-part/part-row.js';

export const OrderParts = ({ number, onReady }) => {
  const read = useReading(may('see-parts') && `/api/orders/${number}/parts`);
  const { body } = read;
  useReady(read, onReady);
  if (!body.value?.parts.length) return null;
  return html`<section class="card" aria-labelledby="order-parts-title"><h2 id="order-parts-title">${t('receipt.of-order')}</h2>
    <ul class="receipt-rows">${body.value.parts.map((part) => html`<${PartRow} key=${part.tag} part=${part} />`)}</ul></section>`;
};
