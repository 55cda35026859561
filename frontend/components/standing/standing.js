// How a quotation stands, as a small stamp whose edge differs for each state.
import { html } from '../../html.js';
import { t } from '../../state/language.js';

export const Standing = ({ state }) => html`<span class=${`standing standing--${state}`}>${t(`state.${state}`)}</span>`;
