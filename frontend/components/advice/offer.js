// One shell that can be built instead: what changes, what that costs and saves, and one press that takes it.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { optionLabel, choiceLabel } from '../../state/book.js';
import { pricesShown } from '../../state/session.js';
import { takeWhole } from '../../state/edit.js';
import { difference } from '../../format.js';
import { SmallStamp } from '../stamp/stamp.js';


const changeText = ({ option, from, to }) =>
  t(from ? 'advice.change' : 'advice.fill', { option: optionLabel(option), from: from && choiceLabel(option, from), to: choiceLabel(option, to) });

const daysText = (days) => {
  if (days === null || days === undefined) return '';
  if (days === 0) return t('advice.days-same');
  if (Math.abs(days) === 1) return t(days < 0 ? 'advice.days-one-less' : 'advice.days-one-more');
  return t(days < 0 ? 'advice.days-less' : 'advice.days-more', { days: Math.abs(days) });
};

const priceText = (gap, currency) => {
  if (!pricesShown.value || !gap || !currency) return '';
  const [amount, words] = gap.with_tax === null ? [gap.net, 'totals.before-tax'] : [gap.with_tax, 'totals.with-tax'];
  return amount === null ? '' : amount === 0 ? t('price.same') : `${difference(amount, currency)} ${t(words)}`;
};

/** Only what one compares by: parts, approvals, tools; the sentence says the rest. */
const gates = (depends) => [...(depends?.parts ?? []), ...(depends?.approvals ?? []), ...(depends?.tools ?? [])];

const Gap = ({ words, depends }) => gates(depends).length > 0 && html`<p class="offer__gap">${words} ${gates(depends).map((id) => html`<b key=${id} class="reason__id">${id}</b> `)}</p>`;

const Also = ({ also }) => {
  const slots = { number: also.beside + 1, options: also.options.map(optionLabel).join(', '), sheds: also.sheds.join(', ') };
  return html`<p class="offer__also">${t(also.sheds.length ? 'advice.also' : 'advice.also-plain', slots)}</p>`;
};

const wholeSentence = ({ sentence, difference: gap }) => [sentence, pricesShown.value && gap?.sentence].filter(Boolean).join(' ');

export const Offer = ({ job, one, at, currency }) => {
  const number = at + 1;
  const words = one.changes.map(changeText).join('; ');
  return html`<li class=${`offer ${one.fills ? 'offer--fills' : ''}`} data-offer=${number}>
    <div class="offer__head"><b class="offer__letter" aria-hidden="true">${number}</b><${SmallStamp} verdict=${one.verdict} /></div>
    <ul class="offer__changes">${one.changes.map((change) => html`<li key=${change.option}>${changeText(change)}${change.forced && html` <small>${t('advice.forced')}</small>`}</li>`)}</ul>
    <p class="offer__figures"><b>${priceText(one.difference, currency)}</b> <span>${daysText(one.days_difference)}</span></p>
    <button class="button button--heavy" aria-label=${`${t('advice.take-of', { number })}: ${words}`} onClick=${() => takeWhole(job, one.specification, words)}>${t('advice.take')}</button>
    <${Gap} words=${t('advice.gains')} depends=${one.gains} /><${Gap} words=${t('advice.sheds')} depends=${one.sheds} />
    ${(one.also_changes ?? []).map((also) => html`<${Also} key=${also.beside} also=${also} />`)}
    <p class="offer__say">${wholeSentence(one)}</p>
  </li>`;
};

/** The same in one row: another value of the one option, all else kept. */
export const KeepRow = ({ job, one, wish, currency }) => {
  const change = one.changes.find(({ option }) => option === wish.option) ?? one.changes[0];
  const words = one.changes.map(changeText).join('; ');
  return html`<li class="keep"><button class="button" onClick=${() => takeWhole(job, one.specification, words)}>${change ? choiceLabel(change.option, change.to) : words}</button>
    <span>${[priceText(one.difference, currency), daysText(one.days_difference)].filter(Boolean).join(' · ')}</span><${SmallStamp} verdict=${one.verdict} /></li>`;
};
