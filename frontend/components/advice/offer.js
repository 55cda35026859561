// One shell that can be built instead: what changes, what it then comes to and when it is ready, and one press that takes it.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { optionLabel, choiceLabel } from '../../state/book.js';
import { pricesShown } from '../../state/session.js';
import { takeWhole, lookAway } from '../../state/edit.js';
import { difference, money } from '../../format.js';
import { SmallStamp } from '../stamp/stamp.js';
import { readyText } from '../ready/ready.js';
import { rangeText, weeksText } from '../promise/promise.js';

const changeText = ({ option, from, to }) =>
  t(from ? 'advice.change' : 'advice.fill', { option: optionLabel(option), from: from && choiceLabel(option, from), to: choiceLabel(option, to) });

const changesText = ({ changes }) => changes.map(changeText).join('; ');

/** With tax where that is decided: [amount, what it is]; null while hidden or not priced. */
const worth = (of) => {
  if (!pricesShown.value || !of || of.net === null) return null;
  return of.with_tax === null ? [of.net, t('totals.before-tax')] : [of.with_tax, t('totals.with-tax')];
};

/** More or less than what stood; where nothing stood that can be built, than number 1, and of number 1 nothing. */
const gapText = (one, held, currency) => {
  const gap = worth(held ? one.difference : one.beside_first);
  if (!gap) return '';
  if (gap[0] === 0) return t(held ? 'price.same' : 'advice.same-first');
  const amount = difference(gap[0], currency);
  return held ? amount : t('advice.beside-first', { what: amount });
};

const workText = (one, held) => {
  const days = held ? one.days_difference : one.days_beside_first;
  if (!days) return '';
  const single = Math.abs(days) === 1 ? 'one-' : '';
  const words = t(`advice.days-${single}${days < 0 ? 'less' : 'more'}`, { days: Math.abs(days) });
  return held ? words : t('advice.than-first', { what: words });
};

const Figures = ({ one, held, currency }) => {
  const total = worth(one.price);
  return html`<p class="offer__total">${total ? html`<b>${money(total[0], currency)}</b> ${total[1]}` : pricesShown.value && currency && html`<b>${t('price.not-priced')}</b>`}</p>
    <ul class="offer__figures">${[!one.stands && gapText(one, held, currency), workText(one, held), one.ready && t('advice.ready', { range: readyText(one.ready) }), one.date && t('advice.date', { range: rangeText(one.date), weeks: weeksText(one.date) })]
      .filter(Boolean)
      .map((text) => html`<li key=${text}>${text}</li>`)}</ul>`;
};

const wholeSentence = ({ sentence, difference: gap }) => [sentence, pricesShown.value && gap?.sentence].filter(Boolean).join(' ');

/** What stands stays by doing nothing; all else is put in place of the answers. */
const Deed = ({ job, one, number }) =>
  one.stands
    ? html`<button class="button" onClick=${() => lookAway(job)}>${t('advice.leave')}</button>`
    : html`<button class="button button--heavy" aria-label=${`${t('advice.take-of', { number })}: ${changesText(one)}`} onClick=${() => takeWhole(job, one.specification, changesText(one))}>${t('advice.take')}</button>`;

const kindOf = ({ stands, fills }) => (stands ? 'offer--stands' : fills ? 'offer--fills' : '');

const changed = (one) => (one.stands ? one.changes.map(({ option, to }) => t('advice.stays', { option: optionLabel(option), choice: choiceLabel(option, to) })) : one.changes.map(changeText));

/** `held`: differences are against what stood. */
export const Offer = ({ job, one, at, held, currency }) => {
  const number = at + 1;
  return html`<li class=${`offer ${kindOf(one)}`} data-offer=${number}>
    <div class="offer__head"><b class="offer__letter" aria-hidden="true">${number}</b><${SmallStamp} verdict=${one.verdict} /></div>
    <ul class="offer__changes">${changed(one).map((text, place) => html`<li key=${text}>${text}${one.changes[place].forced && html` <small>${t('advice.forced')}</small>`}</li>`)}</ul>
    <${Figures} one=${one} held=${held} currency=${currency} />
    <${Deed} job=${job} one=${one} number=${number} />
    <p class="offer__say">${wholeSentence(one)}</p>
  </li>`;
};

/** The same in one row: another value of the one option, all else kept. */
export const KeepRow = ({ job, one, wish, held, currency }) => {
  const change = one.changes.find(({ option }) => option === wish.option) ?? one.changes[0];
  const total = worth(one.price);
  const told = [total && `${money(total[0], currency)} ${total[1]}`, gapText(one, held, currency), workText(one, held)].filter(Boolean);
  return html`<li class="keep"><button class="button" onClick=${() => (one.stands ? lookAway(job) : takeWhole(job, one.specification, changesText(one)))}>
    ${one.stands ? t('advice.stays', { option: optionLabel(change.option), choice: choiceLabel(change.option, change.to) }) : choiceLabel(change.option, change.to)}</button>
    <span>${told.join(' · ')}</span><${SmallStamp} verdict=${one.verdict} /></li>`;
};
