// What is written of a part: that it came, and what is done with one that failed.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { today } from '../../state/session.js';
import { errorOf, useSending } from '../../state/sending.js';
import { TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

const ACTS = ['tagged', 'kept', 'returned'];

const useNoted = () => ({ on: useSignal(today()), note: useSignal(''), ...useSending() });

const Noted = ({ on, note, problem, label }) => html`<${TextField} label=${t('receipt.day')} type="date" required max=${today()} error=${errorOf(problem, 'day')} value=${on.value} onWrite=${(text) => (on.value = text)} />
  <${TextField} label=${label} maxlength="200" autocomplete="off" value=${note.value} onWrite=${(text) => (note.value = text)} />`;

export const TakeIn = ({ part, onPart }) => {
  const { on, note, send, problem, busy } = useNoted();
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/parts/${part.tag}/arrivals`, { day: on.value, note: note.value });
    if (after) onPart(after);
  };
  return html`<form class="floor-form" onSubmit=${press}><${Noted} on=${on} note=${note} problem=${problem} label=${t('receipt.arrival-note')} />
    <button class="button button--heavy" disabled=${busy.value}>${t(part.arrivals.length ? 'receipt.take-in-second' : 'receipt.take-in')}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

/** Each press is one deed with its day. */
export const StaysHis = ({ part, onPart }) => {
  const { on, note, send, problem, busy } = useNoted();
  const press = (act) => async () => {
    const after = await send(`/api/parts/${part.tag}/acts`, { act, day: on.value, note: note.value });
    if (!after) return;
    note.value = '';
    onPart(after);
  };
  return html`<section class="card" aria-labelledby="his-title"><h2 id="his-title">${t('receipt.his')}</h2><p class="quiet">${t('receipt.his-lead')}</p>
    <div class="floor-form"><${Noted} on=${on} note=${note} problem=${problem} label=${t('receipt.act-note')} />
      <div class="receipt__verdicts">${ACTS.map((act) => html`<button key=${act} type="button" class="button" disabled=${busy.value} onClick=${press(act)}>${t(`receipt.do.${act}`)}</button>`)}</div>
      ${problem.value && html`<${Notice} problem=${problem.value} />`}</div></section>`;
};
