// Money of several currencies, each on a line of its own: they are never added up.
import { html } from '../../html.js';
import { money } from '../../format.js';

/** `nets`: [{currency, net}]. */
export const Sums = ({ nets }) => (nets.length ? nets.map(({ currency, net }) => html`<span key=${currency} class="sums__one">${money(net, currency)}</span>`) : '–');
