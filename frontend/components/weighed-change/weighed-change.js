// What a change is, or would be: what changes and how it is taken, its money, its days, and what it depends on newly.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { day, difference, money } from '../../format.js';

const rangeText = ({ ready, ready_by: by }) => `${day(ready)} – ${day(by)}`;

const placeText = ({ country, region, term }) => [region, country, term].filter(Boolean).join(', ') || '–';

export const Taken = ({ taken }) => html`<span class=${`change-taken change-taken--${taken}`}>${t(`shell-change.taken.${taken}`)}</span>`;

export const Changed = ({ changes, place }) => html`<ul class="changed">
  ${changes.map((one) => html`<li key=${one.option}><b>${say(one.label)}</b>: ${say(one.before)} → <b>${say(one.after)}</b><br /><${Taken} taken=${one.taken} /></li>`)}
  ${place && html`<li><b>${t('shell-change.place-change', { before: placeText(place.before), after: placeText(place.after) })}</b><br /><${Taken} taken=${place.taken} /></li>`}</ul>`;

const side = (amount, currency) => (amount === null ? '–' : money(amount, currency));

const Prices = ({ told }) => html`<table class="ruled change-prices"><thead><tr>${['line', 'before', 'after', 'more'].map((key) => html`<th key=${key} scope="col" class=${key === 'line' ? undefined : 'amount'}>${t(`shell-change.${key}`)}</th>`)}</tr></thead>
  <tbody>${told.prices.map((row, at) => html`<tr key=${at}><th scope="row">${say(row.label)}</th><td class="amount">${side(row.before, told.currency)}</td><td class="amount">${side(row.after, told.currency)}</td><td class="amount">${difference((row.after ?? 0) - (row.before ?? 0), told.currency)}</td></tr>`)}
    ${told.charge > 0 && html`<tr><th scope="row">${t('shell-change.charge')}</th><td></td><td></td><td class="amount">${difference(told.charge, told.currency)}</td></tr>`}</tbody></table>`;

const Sum = ({ sum, currency, several, order }) => html`<p class="change-sum">${several && html`<span>${t(`shell-change.case-${sum.case}`)} </span>`}<b>${t('shell-change.sum', { net: difference(sum.net, currency), tax: difference(sum.tax, currency), gross: difference(sum.gross, currency) })}</b>
  <br /><small class="quiet">${t('shell-change.whole', { order, whole: money(sum.whole, currency) })}</small></p>`;

const Money = ({ told, order }) => told.sums.some(({ net }) => net !== null) && html`${(told.prices.length > 0 || told.charge > 0) && html`<${Prices} told=${told} />`}
  ${told.sums.map((sum) => html`<${Sum} key=${sum.case} sum=${sum} currency=${told.currency} several=${told.sums.length > 1} order=${order} />`)}`;

const Days = ({ told }) => told.before && told.after && (told.before.ready === told.after.ready ? html`<p>${t('shell-change.same-days')} ${rangeText(told.after)}</p>` : html`<p>${t('date.before')} ${rangeText(told.before)}<br />${t('date.after')} <b>${rangeText(told.after)}</b> ${told.days ? t(told.days === 1 ? 'shell-change.days-one' : 'shell-change.days', { days: told.days }) : ''}</p>`);

export const Spoken = ({ rows }) => html`<ul class="reasons">${rows.map(({ rules, says }) => html`<li key=${rules.join()}>${rules.map((rule, at) => html`<span key=${rule}><b>${rule}</b> ${say(says[at])} </span>`)}</li>`)}</ul>`;

/** `told`: a note, or a change that is weighed. `order`: its number. */
export const Told = ({ told, order }) => html`<${Changed} changes=${told.changes} place=${told.place} /><${Money} told=${told} order=${order} /><${Days} told=${told} />
  ${told.gained.length > 0 && html`<p>${t('shell-change.gained')}</p><${Spoken} rows=${told.gained} />`}`;
