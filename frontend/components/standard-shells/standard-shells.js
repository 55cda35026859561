// The list of standard shells with its prices, to read and to take away.
import { html } from '../../html.js';
import { t, language } from '../../state/language.js';
import { choiceLabel, titleOf } from '../../state/book.js';
import { pricesShown } from '../../state/session.js';
import { money } from '../../format.js';
import { useProved } from '../../state/proved.js';

const shellName = (shell) => [...Object.entries(shell.keys).map(([option, choice]) => choiceLabel(option, choice)), shell.donor?.label].filter(Boolean).join(' · ');
const gateName = (rule) => `${rule}: ${titleOf(rule)}`;
const amount = (shell, list) => (shell.prices[list.id] === null ? t('price.not-priced') : money(shell.prices[list.id], list.currency));

const Row = ({ shell, lists }) => html`<tr><th scope="row">${shellName(shell)}</th>
  ${pricesShown.value && lists.map((list) => html`<td key=${list.id} class="amount">${amount(shell, list)}</td>`)}<td>${shell.needs.map(gateName).join('; ') || '–'}</td></tr>`;

const Rows = ({ shells, lists, label }) => html`<div class="scrolls" tabindex="0" role="group" aria-label=${label}><table class="ruled ruled--amounts">
  <thead><tr><th scope="col">${t('proof.shell')}</th>
    ${pricesShown.value && lists.map((list) => html`<th key=${list.id} scope="col" class="amount">${t('proof.price-from', { list: list.id })}</th>`)}<th scope="col">${t('proof.needs')}</th></tr></thead>
  <tbody>${shells.map((shell, at) => html`<${Row} key=${at} shell=${shell} lists=${lists} />`)}</tbody></table></div>`;

const address = (number, form) => `/api/books/${number}/standard-shells.${form}?language=${language.value}`;

const Links = ({ number }) =>
  pricesShown.value
    ? html`<p class="deeds-row"><a class="button" target="_blank" rel="noopener" href=${address(number, 'pdf')}>${t('proof.pdf')}</a> <a class="button" href=${address(number, 'csv')} download>${t('proof.csv')}</a></p>`
    : html`<p class="quiet">${t('proof.hidden')}</p>`;

const Told = ({ number, listed }) => {
  const plain = listed.shells.filter((shell) => !shell.donor);
  const others = listed.shells.filter((shell) => shell.donor);
  return html`<${Links} number=${number} />
    <details class="folded"><summary>${t('proof.any-car', { count: plain.length })}</summary><${Rows} shells=${plain} lists=${listed.lists} label=${t('proof.any-car', { count: plain.length })} /></details>
    ${others.length > 0 && html`<details class="folded"><summary>${t('proof.known-car', { count: others.length })}</summary><${Rows} shells=${others} lists=${listed.lists} label=${t('proof.known-car', { count: others.length })} /></details>`}`;
};

export const StandardShells = ({ number }) => {
  const { body, problem } = useProved(`/api/books/${number}/standard-shells`);
  return problem ? null : html`<section class="card" aria-labelledby="standard-shells"><h2 id="standard-shells">${t('proof.standard')}</h2>
    <p class="quiet">${t('proof.standard-lead')}</p>
    ${body ? html`<${Told} number=${number} listed=${body} />` : html`<p>${t('proof.underway')}</p>`}</section>`;
};
