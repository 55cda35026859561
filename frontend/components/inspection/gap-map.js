// The gap map: each point in metal, what paint will leave, what it left; taper and left to right as lines between points.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { Sheet } from '../shell-drawing/shell-drawing.js';

const List = ({ lines }) => html`<details class="gap-map__list"><summary>${t('inspect.map-list')}</summary><ul>${lines.map((line) => html`<li key=${line}>${line}</li>`)}</ul></details>`;

/** Wider than a telephone: it is moved sideways in a window of its own, by finger or by the arrow keys. */
export const GapMap = ({ drawing }) => html`<section class="gap-map" aria-labelledby="gap-map"><h2 id="gap-map">${t('inspect.map')}</h2>
  <div class="gap-map__window" role="group" tabindex="0" aria-labelledby="gap-map"><div class="gap-map__sheet"><${Sheet} drawing=${drawing} name="gap-map" /></div></div>
  <p class="quiet">${t('inspect.map-key')}</p><${List} lines=${drawing.lines} /></section>`;
