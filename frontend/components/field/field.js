// One thing to fill in, with its label, what it means, and what is wrong with it beside it.
import { useId } from 'preact/hooks';
import { html } from '../../html.js';

const Said = ({ id, hint, error }) => html`
  ${hint && html`<small class="field__hint" id=${`${id}-hint`}>${hint}</small>`}
  ${error && html`<small class="field__error" id=${`${id}-error`}>${error}</small>`}
`;

const described = (id, hint, error) => [hint && `${id}-hint`, error && `${id}-error`].filter(Boolean).join(' ') || undefined;

export const TextField = ({ label, hint, error, value, onWrite, class: extra = '', ...rest }) => {
  const id = useId();
  return html`<div class=${`field ${extra}`}>
    <label for=${id}>${label}</label>
    <input id=${id} value=${value} onInput=${(event) => onWrite(event.target.value)}
      aria-describedby=${described(id, hint, error)} aria-invalid=${error ? 'true' : undefined} ...${rest} />
    <${Said} id=${id} hint=${hint} error=${error} />
  </div>`;
};

export const TextArea = ({ label, hint, error, value, onWrite, class: extra = '', ...rest }) => {
  const id = useId();
  return html`<div class=${`field ${extra}`}>
    <label for=${id}>${label}</label>
    <textarea id=${id} value=${value} onInput=${(event) => onWrite(event.target.value)}
      aria-describedby=${described(id, hint, error)} aria-invalid=${error ? 'true' : undefined} ...${rest}></textarea>
    <${Said} id=${id} hint=${hint} error=${error} />
  </div>`;
};

/** `options`: [[value, text]]. */
export const SelectField = ({ label, hint, error, value, options, onWrite, class: extra = '', ...rest }) => {
  const id = useId();
  return html`<div class=${`field ${extra}`}>
    <label for=${id}>${label}</label>
    <select id=${id} value=${value} onChange=${(event) => onWrite(event.target.value)}
      aria-describedby=${described(id, hint, error)} ...${rest}>
      ${options.map(([key, text]) => html`<option key=${key} value=${key} selected=${key === value}>${text}</option>`)}
    </select>
    <${Said} id=${id} hint=${hint} error=${error} />
  </div>`;
};

export const TickField = ({ label, value, onWrite, ...rest }) => {
  const id = useId();
  return html`<div class="field field--tick">
    <input id=${id} type="checkbox" checked=${value} onChange=${(event) => onWrite(event.target.checked)} ...${rest} />
    <label for=${id}>${label}</label>
  </div>`;
};
