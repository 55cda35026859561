// What a reader who does not see the page is told when the answer changes.
import { html } from '../../html.js';

export const Live = ({ text }) => html`<p class="unseen" role="status" aria-live="polite">${text}</p>`;
