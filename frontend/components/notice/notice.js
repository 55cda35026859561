// A refusal as the server words it: what is wrong, how to mend it, and each field at fault.
import { html } from '../../html.js';
import { t, knows } from '../../state/language.js';

/** The field as the page calls it, from its place in what was sent: lines.0.quantity is lines.quantity. */
const fieldName = (path) => {
  const key = `field.${path.replace(/\.\d+(?=\.|$)/g, '')}`;
  return knows(key) ? `${t(key)}: ` : '';
};

const Fields = ({ errors }) => html`<ul class="notice__fields">
  ${Object.entries(errors).map(([path, messages]) => html`<li key=${path}>${fieldName(path)}${[messages].flat().join(' ')}</li>`)}
</ul>`;

export const Notice = ({ problem, children }) => html`<div class="notice" role="alert">
  <p class="notice__title">${problem.title ?? t('notice.refused')}</p>
  ${problem.detail && html`<p>${problem.detail}</p>`}
  ${problem.errors && html`<${Fields} errors=${problem.errors} />`}
  ${problem.repair && html`<p class="notice__repair">${problem.repair}</p>`}
  ${children}
</div>`;
