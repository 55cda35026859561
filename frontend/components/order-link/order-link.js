// From an accepted quotation to the order that its yes made.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { get } from '../../api.js';
import { Link } from '../link/link.js';

/** Nothing where no revision of the quotation was ever accepted. */
export const OrderLink = ({ quotation }) => {
  const number = useSignal(null);
  const accepted = quotation.revisions.some(({ outcome }) => outcome?.state === 'accepted');
  useEffect(() => {
    if (accepted) get(`/api/quotations/${quotation.number}/order`).then(({ body }) => (number.value = body.number), () => {});
  }, [quotation.number, accepted]);
  return number.value && html`<p class="order-link"><${Link} class="button button--heavy" to=${`/orders/${number.value}`}>${t('order.open', { number: number.value })}<//></p>`;
};
