// A form behind a button.
import { useRef } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';

/** `children` draws the form, only while it is open; it is handed what closes it and puts the reader back on the button. */
export const Folded = ({ label, heavy = false, children }) => {
  const open = useSignal(false);
  const button = useRef(null);
  const close = () => {
    open.value = false;
    button.current?.focus();
  };
  return html`<div class="folded-form"><button ref=${button} class=${`button${heavy ? ' button--heavy' : ''}`} aria-expanded=${open.value} onClick=${() => (open.value = !open.value)}>${label}</button>
    ${open.value && children(close)}</div>`;
};
