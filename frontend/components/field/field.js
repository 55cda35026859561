// One thing to fill in, with its label, what it means, and what is wrong with it beside it.
import { useId } from 'preact/hooks';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { wholeNumber } from '../../format.js';

/** What is filled in and written back to that signal as it is typed. */
export const typed = (signal) => ({ value: signal.value, onWrite: (text) => (signal.value = text) });

const Said = ({ id, hint, error }) => html`
  ${hint && html`<small class="field__hint" id=${`${id}-hint`}>${hint}</small>`}
  ${error && html`<small class="field__error" id=${`${id}-error`}>${error}</small>`}
`;

/** What is pasted beyond the most that a field takes is left off by the browser: it is not to be missed in silence. */
const NOTABLE = 80;
const withFull = (hint, value, most) => (most >= NOTABLE && `${value ?? ''}`.length >= most ? [hint, t('field.full', { most: wholeNumber(Number(most)) })].filter(Boolean).join(' ') : hint);

const described = (id, hint, error) => [hint && `${id}-hint`, error && `${id}-error`].filter(Boolean).join(' ') || undefined;

/** What lies around every field; `children(id, described)` draws what is filled in. */
const Around = ({ label, hint, error, extra = '', children }) => {
  const id = useId();
  return html`<div class=${`field ${extra}`}>
    <label for=${id}>${label}</label>
    ${children(id, described(id, hint, error))}
    <${Said} id=${id} hint=${hint} error=${error} />
  </div>`;
};

export const TextField = ({ label, hint, error, value, onWrite, class: extra, ...rest }) => html`<${Around} label=${label} hint=${withFull(hint, value, rest.maxlength)} error=${error} extra=${extra}>${(id, by) => html`
  <input id=${id} value=${value} onInput=${(event) => onWrite(event.target.value)} aria-describedby=${by} aria-invalid=${error ? 'true' : undefined} ...${rest} />`}<//>`;

export const TextArea = ({ label, hint, error, value, onWrite, class: extra, ...rest }) => html`<${Around} label=${label} hint=${withFull(hint, value, rest.maxlength)} error=${error} extra=${extra}>${(id, by) => html`
  <textarea id=${id} value=${value} onInput=${(event) => onWrite(event.target.value)} aria-describedby=${by} aria-invalid=${error ? 'true' : undefined} ...${rest}></textarea>`}<//>`;

/** `options`: [[value, text]]. */
export const SelectField = ({ label, hint, error, value, options, onWrite, class: extra, ...rest }) => html`<${Around} label=${label} hint=${hint} error=${error} extra=${extra}>${(id, by) => html`
  <select id=${id} value=${value} onChange=${(event) => onWrite(event.target.value)} aria-describedby=${by} aria-invalid=${error ? 'true' : undefined} ...${rest}>
    ${options.map(([key, text]) => html`<option key=${key} value=${key} selected=${key === value}>${text}</option>`)}
  </select>`}<//>`;

export const TickField = ({ label, value, onWrite, ...rest }) => {
  const id = useId();
  return html`<div class="field field--tick">
    <input id=${id} type="checkbox" checked=${value} onChange=${(event) => onWrite(event.target.checked)} ...${rest} />
    <label for=${id}>${label}</label>
  </div>`;
};
