// A secret said once, with the cursor in it: when it is closed nobody can read it again.
import { useEffect, useRef } from 'preact/hooks';
import { html } from '../../html.js';

/** `children`: what to do with it. */
export const ShownOnce = ({ title, label, secret, noted, onDone, children }) => {
  const field = useRef(null);
  useEffect(() => field.current.select(), []);
  return html`<div class="shown-once" role="group" aria-label=${title}><p><b>${title}</b></p>
    <label class="shown-once__secret"><span>${label}</span><input ref=${field} readonly value=${secret} onFocus=${(event) => event.target.select()} /></label>
    ${children}<button class="button" onClick=${onDone}>${noted}</button></div>`;
};
