// What follows from a tool's state, before it is said: what the book loses, then whom it touches, in the order in which
// that has to be dealt with. To read only.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { optionLabel, choiceLabel, reasonOf, titleOf } from '../../state/book.js';
import { may, pricesShown } from '../../state/session.js';
import { lastDay, money, share, wholeNumber } from '../../format.js';
import { Link } from '../link/link.js';

const Effect = ({ found }) => html`<p class=${`follows__effect follows__effect--${found.effect}`}>${t(`follows.effect.${found.effect}`, {
  part: found.part && `${found.part} (${titleOf(found.part)})`,
  rule: found.rule && `${found.rule}: ${reasonOf(found.rule)}`,
})}</p>`;

const shareOf = (relies) =>
  relies.using === '0'
    ? t('follows.none')
    : t('follows.share', { using: wholeNumber(relies.using), structures: wholeNumber(relies.structures), percent: share(relies.percent) });

const Choices = ({ relies, effect }) => html`<h4>${t(`follows.choices.${effect}`)}</h4>
  ${relies.everything
    ? html`<p>${t('follows.everything')}</p>`
    : html`<ul class="follows__choices">${relies.choices.map(({ option, choice }) => html`<li key=${option + choice}>${optionLabel(option)}: <b>${choiceLabel(option, choice)}</b></li>`)}</ul>`}`;

const Relies = ({ relies, effect }) => html`<p>${relies.structures === null ? t('follows.not-counted') : shareOf(relies)}</p>
  ${relies.choices.length > 0 && effect !== 'rule' && html`<${Choices} relies=${relies} effect=${effect} />`}`;

/** The office opens the quotation, the workshop what it may read of it. */
const addressOf = (sort, one) => (may('read-quotations') ? `/quotations/${one.number}/${one.letter}` : `/work-to-come/${one.number}`);

const Touched = ({ one, sort }) => html`<li><${Link} to=${addressOf(sort, one)} class="follows__row">
  <b>${one.number} ${one.letter}</b>
  <span>${one.customer}${one.donor && html`<small>${one.donor}</small>`}</span>
  <span>${t('coming.shells', { count: one.shells })}${sort === 'issued' && html`<small>${t('slip.valid', { day: lastDay(one.valid_until) })}</small>`}</span>
  <span class="follows__sum">${one.net !== null && html`${money(one.net, one.currency)}<small>${t('totals.before-tax')}</small>`}</span><//></li>`;

const Sums = ({ nets }) => html`<span class="follows__sums">${nets.map(({ currency, net }) => html`<b key=${currency}>${money(net, currency)}</b> `)}<small>${t('totals.before-tax')}</small></span>`;

/** Of a long group the number and the sum are seen first, the rows when it is opened. */
const FEW = 5;

const Head = ({ group }) => html`<span class="follows__head">${t(`follows.touched.${group.sort}`)} <small>${group.count}</small>
  ${pricesShown.value && may('see-prices') && group.nets.length > 0 && html`<${Sums} nets=${group.nets} />`}</span>`;

/** The workshop is told how many drafts there are, and reads none: nothing unfolds there. */
export const Group = ({ group }) =>
  group.revisions.length
    ? html`<details class="folded follows__group" open=${group.count <= FEW}><summary><${Head} group=${group} /></summary>
      <ul>${group.revisions.map((one) => html`<${Touched} key=${one.number + one.letter} one=${one} sort=${group.sort} />`)}</ul></details>`
    : html`<p class="follows__count"><${Head} group=${group} /></p>`;

/** Released shells: stopped though frozen, or past it and unaffected. */
const InBuild = ({ sort, shells }) => shells.length > 0 && html`<details class="folded follows__group" open=${shells.length <= FEW}><summary><span class="follows__head">${t(`follows.in-build.${sort}`)} <small>${shells.length}</small></span></summary>
  <ul>${shells.map((one) => html`<li key=${one.serial} class="follows__shell"><b>${one.serial}</b> <span>${t('follows.of-order', { order: one.order, shell: one.shell })}</span> <span>${say(one.stage_label)}</span></li>`)}</ul></details>`;

export const Follows = ({ found }) => {
  const groups = found.touched.filter((group) => group.count > 0);
  const out = groups.some((group) => group.sort !== 'draft');
  return html`<div class="follows"><h3>${t('follows.title')}</h3><${Effect} found=${found} />
    ${found.relies ? html`<${Relies} relies=${found.relies} effect=${found.effect} />` : html`<p>${t('follows.not-counted')}</p>`}
    <${InBuild} sort="past" shells=${found.in_build.past} /><${InBuild} sort="stopped" shells=${found.in_build.stopped} />
    ${groups.map((group) => html`<${Group} key=${group.sort} group=${group} />`)}
    ${found.stale_drafts > 0 && html`<p class="quiet">${t('follows.stale-drafts', { count: found.stale_drafts })}</p>`}
    <p class="quiet">${t(out ? (may('read-quotations') ? 'follows.out' : 'follows.out-desk') : groups.length ? 'follows.drafts-alone' : 'follows.nobody')}</p></div>`;
};
