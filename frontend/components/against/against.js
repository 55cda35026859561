// The book in force held against another that was published: what is lost and gained, and which prices moved.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { optionLabel, choiceLabel } from '../../state/book.js';
import { pricesShown } from '../../state/session.js';
import { day, money, wholeNumber } from '../../format.js';
import { useProved } from '../../state/proved.js';
import { useReading } from '../../state/reading.js';
import { SelectField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

const shellText = (shell) => Object.entries(shell).map(([option, choice]) => `${optionLabel(option)}: ${choiceLabel(option, choice)}`).join(' · ');

const Choices = ({ choices }) => html`<details class="folded"><summary>${t('proof.by-choice')}</summary>
  <div class="scrolls" tabindex="0" role="group" aria-label=${t('proof.by-choice')}><table class="ruled ruled--amounts">
  <thead><tr><th scope="col">${t('proof.choice')}</th><th scope="col" class="amount">${t('proof.lost')}</th><th scope="col" class="amount">${t('proof.gained')}</th></tr></thead>
  <tbody>${choices.map((one) => html`<tr key=${one.option + one.choice}><th scope="row">${one.label}</th><td class="amount">${wholeNumber(one.lost)}</td><td class="amount">${wholeNumber(one.gained)}</td></tr>`)}</tbody></table></div></details>`;

const amount = (minor, currency) => (minor === null ? t('price.not-priced') : money(minor, currency));

const Prices = ({ prices }) => html`<details class="folded"><summary>${t('proof.prices-moved')}</summary>
  <div class="scrolls" tabindex="0" role="group" aria-label=${t('proof.prices-moved')}><table class="ruled ruled--amounts">
  <thead><tr><th scope="col">${t('book.price-line')}</th><th scope="col">${t('price.list')}</th><th scope="col" class="amount">${t('proof.was')}</th><th scope="col" class="amount">${t('proof.now')}</th></tr></thead>
  <tbody>${prices.map((one) => html`<tr key=${one.line + one.list}><th scope="row">${one.label}</th><td>${one.list}</td><td class="amount">${amount(one.was, one.currency)}</td><td class="amount">${amount(one.now, one.currency)}</td></tr>`)}</tbody></table></div></details>`;

const Examples = ({ title, shells }) => html`<details class="folded"><summary>${title}</summary>
  <ul class="findings">${shells.map((shell, at) => html`<li class="finding" key=${at}>${shellText(shell)}</li>`)}</ul></details>`;

/** What changes between two books, in sentences and tables. */
export const Told = ({ found }) => {
  const moved = found.structure ?? found.whole;
  return html`<ul class="findings">${found.sentences.map((sentence) => html`<li class="finding" key=${sentence}>${sentence}</li>`)}</ul>
    ${moved.choices.length > 0 && html`<${Choices} choices=${moved.choices} />`}
    ${found.prices.length > 0 && pricesShown.value && html`<${Prices} prices=${found.prices} />`}
    ${moved.lost_examples.length > 0 && html`<${Examples} title=${t('proof.lost-examples')} shells=${moved.lost_examples} />`}
    ${moved.gained_examples.length > 0 && html`<${Examples} title=${t('proof.gained-examples')} shells=${moved.gained_examples} />`}`;
};

const useBooks = (number) => {
  const books = useReading('/api/books').body.value?.books ?? [];
  return books.filter((one) => one.number !== number);
};

const named = (one) => [String(one.number), t('proof.book-named', { number: one.number, day: day(one.published_at), note: one.note })];

/** Only where there is another book to hold it against. */
export const Against = ({ number }) => {
  const others = useBooks(number);
  const picked = useSignal('');
  const { body, problem } = useProved(picked.value && `/api/books/${number}/against/${picked.value}`);
  if (!others.length) return null;
  const shown = body && String(body.against) === picked.value ? body : null;
  return html`<section class="card" aria-labelledby="against"><h2 id="against">${t('proof.against', { number })}</h2>
    <${SelectField} label=${t('proof.other-book')} value=${picked.value} options=${[['', t('proof.no-book')], ...others.map(named)]} onWrite=${(value) => (picked.value = value)} />
    <div aria-live="polite">${problem ? html`<${Notice} problem=${problem} />` : shown ? html`<${Told} found=${shown} />` : picked.value && html`<p>${t('proof.underway')}</p>`}</div></section>`;
};
