// The money: before tax, tax, with tax, deposit; both cases side by side where a person must decide. Never a sum made here.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { pricesShown } from '../../state/session.js';
import { money, percent } from '../../format.js';

const Case = ({ one, currency }) => html`<div class="totals__case">
  <p class="totals__line"><span class="totals__big">${money(one.with_tax, currency)}</span> <span class="totals__words">${t('totals.with-tax')}</span></p>
  <dl>
    <dt>${t('totals.tax', { percent: percent(one.tax_percent) })}</dt><dd>${money(one.tax, currency)}</dd>
    <dt>${t('totals.deposit')}</dt><dd>${money(one.deposit, currency)}</dd>
  </dl>
</div>`;

const Unpriced = ({ unpriced }) => html`<p class="totals__unpriced">${t('totals.unpriced')} ${unpriced.map((row) => say(row.label) || row.line).join(', ')}</p>`;

const From = ({ answer }) => {
  const from = answer?.price_from;
  if (answer?.verdict === 'cant') return html`<p class="totals__words">${t('totals.cant')}</p>`;
  if (!from) return html`<p class="totals__words">${t('totals.none')}</p>`;
  if (from.worked_out === false) return html`<p class="totals__words">${t('price.not-worked-out')}</p>`;
  if (from.amount === null) return html`<p class="totals__unpriced">${t('price.not-priced-ask')}</p>`;
  return html`<p class="totals__big">${money(from.amount, answer.currency)}</p>
    <p class="totals__words">${t(from.outright ? 'totals.from' : 'totals.from-once')}</p>`;
};

const Full = ({ totals }) => html`
  <div class=${`totals__cases ${totals.decided ? '' : 'is-undecided'}`}>
    ${totals.tax_cases.map((one) => html`<${Case} key=${one.case} one=${one} currency=${totals.currency} />`)}
  </div>
  <p class="totals__net"><b>${money(totals.lines_net, totals.currency)}</b> ${t('totals.before-tax')}</p>
  <p class="totals__why">${totals.decided ? totals.tax_cases[0]?.reason : t('totals.undecided')}</p>`;

/** `totals` of the server, or the answer's "price from" while there are none. */
export const Totals = ({ totals, answer }) => {
  if (!pricesShown.value) return html`<div class="totals"><p class="totals__hidden">${t('prices.hidden-here')}</p></div>`;
  const unpriced = answer?.price?.unpriced ?? [];
  return html`<div class="totals">
    ${unpriced.length ? html`<${Unpriced} unpriced=${unpriced} />` : totals ? html`<${Full} totals=${totals} />` : html`<${From} answer=${answer} />`}
  </div>`;
};

/** One figure for the phone's bar: [amount, what it is]. */
export const totalText = (totals, answer) => {
  if (!pricesShown.value) return [t('prices.hidden-short'), ''];
  if (answer?.price?.unpriced?.length) return [t('price.not-priced'), ''];
  if (totals) return [totals.tax_cases.map((one) => money(one.with_tax, totals.currency)).join(' / '), t('totals.with-tax')];
  const from = answer?.price_from;
  return from?.amount ? [t('price.from', { amount: money(from.amount, answer.currency) }), t('totals.before-tax')] : ['', ''];
};
