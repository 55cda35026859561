// What is supposed to go wrong, as a form; what was lived through last stands in it.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { TextField } from '../field/field.js';

const FIELDS = [['rework', 0, 100], ['rework_days', 0, 60], ['part_late', 0, 100], ['part_days', 0, 120], ['tool_days', 0, 120], ['booth_days', 0, 15], ['years', 1, 1000], ['seed', 0, 999999999]];

export const SupposedForm = ({ supposed, busy, onBegin }) => {
  const typed = useSignal(Object.fromEntries(FIELDS.map(([name]) => [name, String(supposed[name])])));
  const press = (event) => {
    event.preventDefault();
    onBegin(Object.fromEntries(Object.entries(typed.value).map(([name, text]) => [name, Number(text)])));
  };
  return html`<form class="card" onSubmit=${press}><h2>${t('outlook.supposed')}</h2><div class="supposed">
    ${FIELDS.map(([name, least, most]) => html`<${TextField} key=${name} label=${t(`outlook.${name.replace('_', '-')}`)} type="number" min=${least} max=${most} step="1" required value=${typed.value[name]} onWrite=${(text) => (typed.value = { ...typed.value, [name]: text })} />`)}</div>
    <button class="button button--heavy" disabled=${busy}>${t('outlook.begin')}</button></form>`;
};
