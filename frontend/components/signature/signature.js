// Who did it, and his personal code. The code is in memory alone, and is gone once it was sent.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { SelectField, TextField } from '../field/field.js';

/** One of `signers` and his code: the first stands there until another is picked. `take()` hands the code out, once. */
export const useSignature = (signers) => {
  const [picked, code] = [useSignal(''), useSignal('')];
  const signer = signers.find(({ name }) => name === picked.value) ?? signers[0];
  const take = () => {
    const typed = code.value;
    code.value = '';
    return typed;
  };
  return { signers, signer, by: signer?.name ?? '', picked, code, take };
};

/** `code`: a signal. */
export const CodeField = ({ label = t('floor.code'), code }) =>
  html`<${TextField} label=${label} type="password" inputmode="numeric" autocomplete="off" required maxlength="8" value=${code.value} onWrite=${(text) => (code.value = text)} />`;

/** `of`: what `useSignature` gives; `label`: in what he is meant. */
export const Signature = ({ of, label = t('floor.who') }) => html`
  <${SelectField} label=${label} options=${of.signers.map((one) => [one.name, one.display_name])} value=${of.by} onWrite=${(name) => (of.picked.value = name)} />
  <${CodeField} code=${of.code} />`;
