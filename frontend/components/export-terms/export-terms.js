// What export papers say of a shell, and within how many days damage must be told: the manager's words.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { put } from '../../api.js';
import { country } from '../../format.js';
import { errorOf, problemOf } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { TextField } from '../field/field.js';
import { Folded } from '../folded/folded.js';
import { Notice } from '../notice/notice.js';

const Change = ({ told, onTold }) => {
  const [typed, problem] = [useSignal(told), useSignal(null)];
  const field = (name) => ({ value: typed.value[name], error: errorOf(problem, name), onWrite: (text) => (typed.value = { ...typed.value, [name]: text }) });
  const press = async (event) => {
    event.preventDefault();
    const body = { ...typed.value, origin: typed.value.origin.trim().toUpperCase(), damage_days: Number(typed.value.damage_days) };
    await put('/api/export-terms', body).then((answer) => onTold(answer.body), (error) => (problem.value = problemOf(error)));
  };
  return html`<form class="money-form" onSubmit=${press}><p class="money-form__lead quiet">${t('export-terms.lead')}</p>
    <${TextField} label=${t('export-terms.hs-code')} required maxlength="20" autocomplete="off" ...${field('hs_code')} />
    <${TextField} label=${t('export-terms.origin')} required maxlength="2" autocomplete="off" ...${field('origin')} />
    <${TextField} label=${t('export-terms.damage-days')} type="number" inputmode="numeric" min="1" max="60" required ...${field('damage_days')} />
    <button class="button button--heavy">${t('export-terms.set')}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

export const ExportTerms = () => {
  const { body: told } = useReading('/api/export-terms');
  if (!told.value) return null;
  const { hs_code: code, origin, damage_days: days } = told.value;
  return html`<section class="card" aria-labelledby="export-terms"><h2 id="export-terms">${t('export-terms.title')}</h2><p>${t('export-terms.now', { code, origin: country(origin), days })}</p>
    ${may('set-export-terms') && html`<${Folded} label=${t('export-terms.change')}>${(close) => html`<${Change} told=${told.value} onTold=${(after) => ((told.value = after), close())} />`}<//>`}</section>`;
};
