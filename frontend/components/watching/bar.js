// A count as a bar, all of a table on one scale that begins at nought. The figure stands beside it: this is for the eye alone.
import { html } from '../../html.js';

export const Bar = ({ value, most }) => html`<svg class="bar" viewBox="0 0 100 12" preserveAspectRatio="none" aria-hidden="true" focusable="false">
  <line x1="0" y1="0" x2="0" y2="12" class="bar__axis" /><rect x="0" y="2" width=${most ? (100 * value) / most : 0} height="8" class="bar__value" /></svg>`;
