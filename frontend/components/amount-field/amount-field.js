// An amount to fill in; what is understood by it stands beneath, so that a slip of the comma is seen before it is sent.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { readAmount } from '../../state/amounts.js';
import { money } from '../../format.js';
import { TextField } from '../field/field.js';

const understood = (value, currency) => {
  if (!value.trim()) return undefined;
  const minor = readAmount(value, currency);
  return minor === null ? t('amount.not-read') : t('amount.read', { amount: money(minor, currency) });
};

export const AmountField = ({ value, currency, hint, ...rest }) =>
  html`<${TextField} inputmode="decimal" autocomplete="off" maxlength="24" value=${value} hint=${understood(value, currency) ?? hint} ...${rest} />`;
