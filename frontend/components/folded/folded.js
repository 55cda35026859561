// A form behind a button.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';

/** `children` draws the form, only while it is open; it is handed what closes it. */
export const Folded = ({ label, heavy = false, children }) => {
  const open = useSignal(false);
  return html`<div class="folded-form"><button class=${`button${heavy ? ' button--heavy' : ''}`} aria-expanded=${open.value} onClick=${() => (open.value = !open.value)}>${label}</button>
    ${open.value && children(() => (open.value = false))}</div>`;
};
