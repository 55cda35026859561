// The share of promises kept by each width: a line for each planned load, the quoted width and nine in ten marked. From 0 to 100 %.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { percent } from '../../format.js';

const [WIDE, HIGH] = [640, 330];
const [LEFT, RIGHT, TOP, BOTTOM] = [52, 76, 16, 48];
const DASHES = ['none', '9 5', '3 4', '12 4 3 4'];

const xOf = (width, last) => LEFT + (width / last) * (WIDE - LEFT - RIGHT);
const yOf = (kept) => TOP + (1 - kept / 100) * (HIGH - TOP - BOTTOM);

const Grid = ({ last }) => html`${[0, 20, 40, 60, 80, 100].map((kept) => html`<g key=${kept}><line x1=${LEFT} x2=${WIDE - RIGHT} y1=${yOf(kept)} y2=${yOf(kept)} class="chart__grid" /><text x=${LEFT - 8} y=${yOf(kept) + 4} text-anchor="end">${kept}</text></g>`)}
  ${Array.from({ length: last / 5 + 1 }, (_, n) => n * 5).map((width) => html`<text key=${width} x=${xOf(width, last)} y=${HIGH - BOTTOM + 18} text-anchor="middle">${width}</text>`)}
  <text x=${(LEFT + WIDE - RIGHT) / 2} y=${HIGH - 8} text-anchor="middle">${t('outlook.axis-width')}</text>
  <text transform=${`translate(13 ${(TOP + HIGH - BOTTOM) / 2}) rotate(-90)`} text-anchor="middle">${t('outlook.axis-kept')}</text>`;

const Marks = ({ width, last }) => html`<line x1=${LEFT} x2=${WIDE - RIGHT} y1=${yOf(90)} y2=${yOf(90)} class="chart__mark" /><text x=${WIDE - RIGHT + 6} y=${yOf(90) + 4}>${t('outlook.nine-line')}</text>
  ${width <= last && html`<line x1=${xOf(width, last)} x2=${xOf(width, last)} y1=${TOP} y2=${HIGH - BOTTOM} class="chart__mark" /><text x=${xOf(width, last) + 6} y=${HIGH - BOTTOM - 8}>${t('outlook.quoted', { width })}</text>`}`;

const Curve = ({ one, at, last }) => html`<polyline class="chart__curve" stroke-dasharray=${DASHES[at % DASHES.length]} points=${one.curve.map((kept, width) => `${xOf(width, last)},${yOf(kept)}`).join(' ')} />`;

const Legend = ({ held }) => html`<ul class="chart__legend">${held.map((one, at) => html`<li key=${one.planned}><svg width="44" height="10" aria-hidden="true"><line x1="0" x2="44" y1="5" y2="5" class="chart__curve" stroke-dasharray=${DASHES[at % DASHES.length]} /></svg> ${percent(one.planned)}</li>`)}</ul>`;

export const Chart = ({ held, width }) => {
  const last = held[0].curve.length - 1;
  return html`<figure class="chart"><svg viewBox=${`0 0 ${WIDE} ${HIGH}`} role="img" aria-label=${t('outlook.chart')}>
    <${Grid} last=${last} /><${Marks} width=${width} last=${last} />${held.map((one, at) => html`<${Curve} key=${one.planned} one=${one} at=${at} last=${last} />`)}</svg>
    <figcaption>${t('outlook.planned')}<${Legend} held=${held} /></figcaption></figure>`;
};
