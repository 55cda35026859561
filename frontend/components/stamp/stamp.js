// The verdict as a rubber stamp. Three shapes that differ without colour: a struck-out block for "can't", a ticket with
// boxes still to tick for "once", a round for "can" (double ring: as the car had it; broken ring: not as it had it).
import { html } from '../../html.js';
import { t } from '../../state/language.js';

const Boxes = ({ gates }) => html`<ul class="stamp__gates">
  ${gates.slice(0, 4).map((gate) => html`<li key=${gate.id}><span class="stamp__box"></span>${gate.id} ${t(`gate.${gate.kind}`)}</li>`)}
  ${gates.length > 4 && html`<li key="more">${t('gate.more', { count: gates.length - 4 })}</li>`}
</ul>`;

/** So far: not every question is answered yet, and the stamp says so. */
const lineOf = (verdict, soFar) => (soFar ? t('verdict.so-far', { line: t(`verdict.${verdict}.line`) }) : t(`verdict.${verdict}.line`));

const Nothing = () => html`<div class="stamp stamp--none"><p class="stamp__word">${t('verdict.nothing')}</p><p class="stamp__line">${t('verdict.nothing-line')}</p></div>`;

export const Stamp = ({ verdict, gates = [], soFar = false, nothing = false }) => {
  if (verdict && nothing) return html`<${Nothing} />`;
  if (!verdict) return html`<div class="stamp stamp--none"><p class="stamp__word">${t('verdict.none')}</p></div>`;
  return html`<div class=${`stamp stamp--${verdict}`}>
    <p class="stamp__word">${t(`verdict.${verdict}.word`)}</p>
    ${verdict === 'once' ? html`<${Boxes} gates=${gates} />` : html`<p class="stamp__line">${lineOf(verdict, soFar && verdict !== 'cant')}</p>`}
  </div>`;
};

/** The same in one line, for lists and the phone's bar. */
export const SmallStamp = ({ verdict, nothing = false }) =>
  nothing
    ? html`<span class="small-stamp small-stamp--none">${t('verdict.nothing-short')}</span>`
    : html`<span class=${`small-stamp small-stamp--${verdict ?? 'none'}`}>${t(verdict ? `verdict.${verdict}.short` : 'verdict.none')}</span>`;
