// One cell of a sheet's head: what it is called, and what it says, if anything.
import { html } from '../../html.js';

export const Fact = ({ label, children, large = false }) => html`<div class="cell"><dt>${label}</dt><dd class=${large ? 'cell__large' : ''}>${children || '–'}</dd></div>`;
