// A whole number within bounds. What is no such number stays as it was typed, is said to be wrong, and is never made into
// another: until it is mended, the last good number counts and the quotation can't go out.
import { useEffect, useId } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { wholeNumber } from '../../format.js';
import { setWrong } from '../../state/edit.js';

const readWhole = (text, least, most) => {
  const number = /^\d{1,9}$/.test(text.trim()) ? Number(text) : NaN;
  return number >= least && number <= most ? number : null;
};

/** `name` says which field of the job it is; `value` the number that counts now. */
export const WholeNumber = ({ job, name, label, labelClass = '', unit = null, least, most, value, onWrite }) => {
  const id = useId();
  const typed = useSignal(null);
  const wrong = typed.value !== null;
  useEffect(() => {
    typed.value = null;
    setWrong(job, name, false);
    return () => setWrong(job, name, false);
  }, [value]);
  const write = (text) => {
    const number = readWhole(text, least, most);
    typed.value = number === null ? text : null;
    setWrong(job, name, number === null);
    if (number !== null && number !== value) onWrite(number);
  };
  return html`<div class="whole">
    <label class=${labelClass} for=${id}>${label}</label>
    <input id=${id} inputmode="numeric" autocomplete="off" maxlength="12" value=${typed.value ?? value} aria-invalid=${wrong ? 'true' : undefined}
      aria-describedby=${wrong ? `${id}-error` : undefined} onInput=${(event) => write(event.target.value)} />
    ${unit && html`<small>${unit}</small>`}
    ${wrong && html`<small class="field__error" role="alert" id=${`${id}-error`}>${t('whole.error', { least: wholeNumber(least), most: wholeNumber(most), counts: wholeNumber(value) })}</small>`}
  </div>`;
};
