// A part has failed: another part, another choice, or no shell, each with money and dates; the letter; and the slot, only as agreed.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { optionLabel } from '../../state/book.js';
import { today } from '../../state/session.js';
import { day, difference, money } from '../../format.js';
import { errorOf, useSending } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { TextField } from '../field/field.js';
import { Folded } from '../folded/folded.js';
import { MoveSlot } from '../move-slot/move-slot.js';
import { Notice } from '../notice/notice.js';

const rangeOf = ({ ready, ready_by: by }) => t('promise.range', { from: day(ready), to: day(by) });

const Dates = ({ dates }) =>
  dates?.slot
    ? html`<p>${t('receipt.earliest', { day: day(dates.earliest) })} ${t(dates.keeps ? 'receipt.keeps' : 'receipt.free-slot', { day: day(dates.slot) })} <b>${rangeOf(dates)}</b></p>`
    : html`<p class="quiet">${t('receipt.undated')}</p>`;

/** Its sign never stands alone at the end of a line. */
const whole = (sum, currency) => difference(sum, currency).replace('−', '−\u2060');

const Sums = ({ one }) =>
  one.payable === null
    ? html`<p><b>${t('receipt.unpriced')}</b></p>`
    : html`<p><b>${t('receipt.with-tax', { sum: difference(one.payable, one.currency) })}</b> <span class="quiet">${t('receipt.sums', { net: whole(one.net, one.currency), tax: whole(one.tax, one.currency) })}</span>${one.payable < 0 && html` <small>${t('receipt.back', { sum: money(-one.payable, one.currency) })}</small>`}</p>`;

const Way = ({ title, children }) => html`<li class="receipt__way"><h3>${title}</h3>${children}</li>`;

const Letter = ({ letter }) => html`<details><summary>${t('receipt.letter')}</summary><p><b>${letter.subject}</b></p><pre class="letter__text" tabindex="0" lang=${letter.language}>${letter.text}</pre></details>`;

const Slot = ({ part, slot, to, onMoved }) => html`<div class="acts"><p>${t('receipt.slot-stays', { day: day(slot) })}</p><${Folded} label=${t('date.move-slot')}>${(done) => html`<${MoveSlot} number=${part.order} shell=${part.shell} slot=${slot} to=${to} onMoved=${() => (done(), onMoved())} />`}<//></div>`;

/** `onPart`: the part as it stands after a choice. */
export const WaysOn = ({ part, onPart }) => {
  const passing = useSignal('');
  const { body, problem, again } = useReading(`/api/parts/${part.tag}/ways-on${passing.value ? `?passing=${passing.value}` : ''}`);
  const { send, problem: refused, busy } = useSending();
  const choose = (wish) => async () => {
    const after = await send(`/api/parts/${part.tag}/choices`, wish);
    if (after) onPart(after);
  };
  const ways = body.value;
  if (!ways) return problem.value && html`<${Notice} problem=${problem.value} />`;
  const to = ways.second.dates && !ways.second.dates.keeps ? ways.second.dates.slot : null;
  return html`<section class="card" aria-labelledby="ways-title"><h2 id="ways-title">${t('receipt.ways')}</h2><p class="quiet">${t('receipt.ways-lead')}</p>
    <ul class="receipt__ways">
      <${Way} title=${t('receipt.second')}><${TextField} label=${t('receipt.passing')} type="date" error=${errorOf(refused, 'day')} value=${passing.value || ways.second.passing} onWrite=${(text) => (passing.value = text)} />
        <${Dates} dates=${ways.second.dates} /><button class="button" disabled=${busy.value || !(passing.value > today())} onClick=${choose({ choice: 'second', day: passing.value })}>${t('receipt.choose-second')}</button><//>
      ${ways.instead.map((one) => html`<${Way} key=${one.choice} title=${t('receipt.instead', { choice: `${optionLabel(one.option)}: ${say(one.label)}` })}><${Sums} one=${one} />${one.approvals.length > 0 && html`<p>${t('receipt.approvals', { rules: one.approvals.join(', ') })}</p>`}<${Dates} dates=${one.dates} />
        <button class="button" disabled=${busy.value} onClick=${choose({ choice: 'instead', option: one.option, instead: one.choice })}>${t('receipt.choose-instead')}</button><//>`)}
      <${Way} title=${t('receipt.cancel')}><p>${t('receipt.cancel-lead')}</p><button class="button" disabled=${busy.value} onClick=${choose({ choice: 'cancel' })}>${t('receipt.choose-cancel')}</button><//></ul>
    ${refused.value && html`<${Notice} problem=${refused.value} />`}
    ${ways.slot && html`<${Slot} key=${to} part=${part} slot=${ways.slot} to=${to} onMoved=${again} />`}
    ${ways.letter && html`<${Letter} letter=${ways.letter} />`}</section>`;
};
