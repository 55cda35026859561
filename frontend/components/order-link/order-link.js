// From an accepted quotation to the order that its yes made.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { useReading } from '../../state/reading.js';
import { Link } from '../link/link.js';

/** Nothing where no revision of the quotation was ever accepted. */
export const OrderLink = ({ quotation }) => {
  const accepted = quotation.revisions.some(({ outcome }) => outcome?.state === 'accepted');
  const number = useReading(accepted && `/api/quotations/${quotation.number}/order`).body.value?.number;
  return number && html`<p class="order-link"><${Link} class="button button--heavy" to=${`/orders/${number}`}>${t('order.open', { number })}<//></p>`;
};
