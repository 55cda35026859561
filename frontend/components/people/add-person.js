// Adding somebody: who he is, what he does, whose he is.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { dealers } from '../../state/dealers.js';
import { errorOf, useSending } from '../../state/sending.js';
import { SelectField, TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

const ROLES = ['clerk', 'manager', 'lead', 'welder', 'inspector', 'dealer'];

/** `onAdded` is handed the person with the password that is told once. */
export const AddPerson = ({ onAdded }) => {
  const typed = useSignal({ display_name: '', name: '', role: 'clerk', dealer: '', language: 'en' });
  const { send, problem, busy } = useSending();
  const into = (name) => ({ value: typed.value[name], error: errorOf(problem, name), onWrite: (text) => (typed.value = { ...typed.value, [name]: text }) });
  const ofDealer = typed.value.role === 'dealer';
  const press = async (event) => {
    event.preventDefault();
    const told = await send('/api/people', { ...typed.value, dealer: ofDealer ? typed.value.dealer : null });
    if (told) onAdded(told);
  };
  return html`<form class="money-form" onSubmit=${press}>
    <${TextField} label=${t('people.display-name')} required maxlength="200" autocomplete="off" ...${into('display_name')} />
    <${TextField} label=${t('people.sign-in-name')} hint=${t('people.name-hint')} required maxlength="40" autocomplete="off" autocapitalize="none" spellcheck="false" ...${into('name')} />
    <${SelectField} label=${t('people.role')} options=${ROLES.map((one) => [one, t(`role.${one}`)])} ...${into('role')} />
    ${ofDealer && html`<${SelectField} label=${t('people.dealer')} required options=${[['', t('people.pick-dealer')], ...dealers.value.map((one) => [one.id, one.name])]} ...${into('dealer')} />`}
    <${SelectField} label=${t('people.language')} options=${[['en', t('language.en')], ['de', t('language.de')]]} ...${into('language')} />
    <button class="button button--heavy" disabled=${busy.value}>${t('people.add-now')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};
