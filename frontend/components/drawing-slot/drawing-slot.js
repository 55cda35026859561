// Where the drawing of the shell goes. `drawing` is what draws it; while there is none, nothing is shown and no room is kept.
import { html } from '../../html.js';

export const DrawingSlot = ({ drawing = null }) => drawing && html`<figure class="drawing">${drawing}</figure>`;
