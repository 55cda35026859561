// The verdict as a rubber stamp. Three shapes that differ without colour: a struck-out block for "can't", a ticket with
// boxes still to tick for "once", a round for "can" (double ring: as the car had it; broken ring: not as it had it).
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { toolText } from '../reasons/reasons.js';

const HELD_AGAINST_A_CAR = ['as-had', 'not-as-had'];

/** The key of the words about a car: nobody's car is spoken of before it is known which. */
export const ofCar = (key, verdict, known) => (known || !HELD_AGAINST_A_CAR.includes(verdict) ? key : `${key}-any`);

/** What holds beside the headline: once, and then not as the car had it. */
export const otherVerdicts = (answer, known) => (answer?.verdicts ?? []).slice(1).map((verdict) => t(ofCar(`verdict.${verdict}.also`, verdict, known))).join(' ');

/** P1 part; a tool by its name, and when it is back. */
const boxText = ({ id, kind }, down) => (kind === 'tool' ? toolText(id, down) : `${id} ${t(`gate.${kind}`)}`);

/** So many lines have room on the stamp; the last of them counts what has none. */
const LINES = 3;

const fitting = (gates) => (gates.length > LINES ? gates.slice(0, LINES - 1) : gates);

const Boxes = ({ gates, down }) => html`<ul class="stamp__gates">
  ${fitting(gates).map((gate) => html`<li key=${gate.id} class=${`stamp__gate--${gate.kind}`}><span class="stamp__box"></span><span>${boxText(gate, down)}</span></li>`)}
  ${gates.length > LINES && html`<li key="more">${t('gate.more', { count: gates.length - LINES + 1 })}</li>`}
</ul>`;

/** So far: not every question is answered yet, and the stamp says so. */
const lineOf = (verdict, soFar, known) => {
  const line = t(ofCar(`verdict.${verdict}.line`, verdict, known));
  return soFar ? t('verdict.so-far', { line }) : line;
};

/** Waiting for a tool alone changes nothing about whether it can be built; the stamp says it all the same. */
const ToolsDown = ({ gates, down }) => {
  const tools = gates.filter(({ kind }) => kind === 'tool');
  return tools.length > 0 && html`<p class="stamp__tool">${boxText(tools[0], down)}${tools.length > 1 ? ` ${t('gate.more', { count: tools.length - 1 })}` : ''}</p>`;
};

const Nothing = () => html`<div class="stamp stamp--none"><p class="stamp__word">${t('verdict.nothing')}</p><p class="stamp__line">${t('verdict.nothing-line')}</p></div>`;

/** `known`: the donor car is; `down`: tools that are, as the answer has them. */
export const Stamp = ({ verdict, gates = [], down, soFar = false, nothing = false, known = false }) => {
  if (verdict && nothing) return html`<${Nothing} />`;
  if (!verdict) return html`<div class="stamp stamp--none"><p class="stamp__word">${t('verdict.none')}</p></div>`;
  return html`<div class=${`stamp stamp--${verdict}`}>
    <p class="stamp__word">${t(`verdict.${verdict}.word`)}</p>
    ${verdict === 'once' ? html`<${Boxes} gates=${gates} down=${down} />` : html`<p class="stamp__line">${lineOf(verdict, soFar && verdict !== 'cant', known)}</p>`}
    ${verdict !== 'once' && html`<${ToolsDown} gates=${gates} down=${down} />`}
  </div>`;
};

/** The same in one line, for lists and the phone's bar. */
export const SmallStamp = ({ verdict, nothing = false }) =>
  nothing
    ? html`<span class="small-stamp small-stamp--none">${t('verdict.nothing-short')}</span>`
    : html`<span class=${`small-stamp small-stamp--${verdict ?? 'none'}`}>${t(verdict ? `verdict.${verdict}.short` : 'verdict.none')}</span>`;
