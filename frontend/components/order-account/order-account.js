// How the order stands with its money, as the server derived it. Nothing is added up here.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { money } from '../../format.js';

const rowsOf = ({ currency, payable, deposit, deposit_tax: tax, received, short, tolerance, due, over }) => {
  const sum = (amount) => (amount === null ? t('account.undecided') : money(amount, currency));
  return [
    ['payable', sum(payable)],
    ['deposit', sum(deposit), deposit === null ? '' : t('account.tax-in-it', { tax: money(tax, currency) })],
    ['received', sum(received)],
    ...(short ? [['short', sum(short)]] : []),
    ...(tolerance ? [['tolerance', sum(tolerance)]] : []),
    ['due', sum(due)],
    ...(over ? [['over', sum(over)]] : []),
  ];
};

export const OrderAccount = ({ account }) => html`<section class="card" aria-labelledby="account-title"><h2 id="account-title">${t('account.title')} <small>${account.currency}, ${t('totals.with-tax')}</small></h2>
  <table class="ruled account"><tbody>${rowsOf(account).map(([name, sum, more]) => html`<tr key=${name} class=${`account__${name}`}><th scope="row">${t(`account.${name}`)}</th><td class="amount">${sum}${more && html` <small>${more}</small>`}</td></tr>`)}</tbody></table></section>`;
