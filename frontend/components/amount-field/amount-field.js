// An amount to fill in; what is understood by it stands beneath, so that a slip of the comma is seen before it is sent.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { readAmount, readAmountOrNone } from '../../state/amounts.js';
import { money } from '../../format.js';
import { TextField } from '../field/field.js';

const understood = (value, currency, read) => {
  if (!value.trim()) return undefined;
  const minor = read(value, currency);
  return minor === null ? t('amount.not-read') : t('amount.read', { amount: money(minor, currency) });
};

/** `none`: nought is an answer, too. */
export const AmountField = ({ value, currency, hint, none = false, ...rest }) =>
  html`<${TextField} inputmode="decimal" autocomplete="off" maxlength="24" value=${value} hint=${understood(value, currency, none ? readAmountOrNone : readAmount) ?? hint} ...${rest} />`;
