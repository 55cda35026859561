// What a move would move: every promise before and after, with the letter for whoever has to be told.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { day } from '../../format.js';
import { rangeText } from '../promise/promise.js';

const Letter = ({ letter }) => html`<details><summary>${t('date.letter')}</summary><p><b>${letter.subject}</b></p><pre class="letter__text" tabindex="0">${letter.text}</pre></details>`;

const MakesRoom = ({ one }) => html`<li class="makes-room"><b>${t('stock.makes-room', { number: one.number })}</b> <p>${t('stock.from-to', { before: day(one.before), after: day(one.after) })}</p><small class="quiet">${t('stock.nobody-asked')}</small></li>`;

const Moved = ({ one }) => html`<li><b>${t('date.moved-shell', { number: one.number, shell: one.shell, customer: one.customer })}</b>
  <p>${t('date.before')} ${t('date.slot', { day: day(one.before.slot) })}, ${rangeText(one.before)}</p>
  <p>${t('date.after')} ${one.after ? html`${t('date.slot', { day: day(one.after.slot) })}, ${rangeText(one.after)}` : t('date.no-slot')}</p>
  ${one.letter ? html`<${Letter} letter=${one.letter} />` : html`<small class="quiet">${t('date.same-dates')}</small>`}</li>`;

/** `proposal` as the server shows it: what moves, or why nothing can. `children`: what is pressed to agree. */
export const Moves = ({ proposal, children }) =>
  proposal.barred
    ? html`<p class="payment__says moves" role="status">${proposal.says}</p>`
    : html`<div class="moves" role="status"><h3>${t('date.moves')}</h3><ul>${proposal.moves.map((one) => html`<${Moved} key=${`${one.number} ${one.shell}`} one=${one} />`)}${(proposal.stock ?? []).map((one) => html`<${MakesRoom} key=${one.number} one=${one} />`)}</ul>${children}</div>`;
