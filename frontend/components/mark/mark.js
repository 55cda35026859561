// How a choice stands, as a draughtsman's line: usual thin, chosen heavy, forced dashed, closed hatched, open empty.
import { html } from '../../html.js';

export const Mark = ({ state, taken = false }) => html`<svg class=${`mark mark--${state}`} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
  <rect class="mark__box" x="3.5" y="3.5" width="17" height="17" />
  ${state === 'closed' && html`<path class="mark__hatch" d="M4 12 L12 4 M4 20 L20 4 M12 20 L20 12" />`}
  ${taken && html`<path class="mark__tick" d="M7 12.5 L10.8 16.5 L17.5 8" />`}
</svg>`;
