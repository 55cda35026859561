// Who did it, and his personal code. The code is in memory alone, and is gone once it was sent.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { SelectField, TextField } from '../field/field.js';

/** `by`, `code`: signals. */
export const Signature = ({ signers, by, code }) => html`
  <${SelectField} label=${t('floor.who')} options=${signers.map((one) => [one.name, one.display_name])} value=${by.value} onWrite=${(name) => (by.value = name)} />
  <${TextField} label=${t('floor.code')} type="password" inputmode="numeric" autocomplete="off" required maxlength="8" value=${code.value} onWrite=${(text) => (code.value = text)} />`;
