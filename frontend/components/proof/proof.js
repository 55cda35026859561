// What was proved of the book, in words: whether it is sound, how many variants come of it, every finding with a shell.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { optionLabel, choiceLabel } from '../../state/book.js';
import { wholeNumber } from '../../format.js';
import { useProved } from '../../state/proved.js';
import { Notice } from '../notice/notice.js';
import { Findings } from './findings.js';

const Count = ({ what, count, outright }) => html`<tr><th scope="row">${what}</th>
  <td class="amount">${wholeNumber(count)}</td><td class="amount">${outright === null ? '' : wholeNumber(outright)}</td></tr>`;

const Counts = ({ proof }) => html`<details class="folded"><summary>${t('proof.counts')}</summary>
  <div class="scrolls" tabindex="0" role="group" aria-label=${t('proof.counts')}><table class="ruled ruled--amounts">
    <thead><tr><th scope="col">${t('proof.of-what')}</th><th scope="col" class="amount">${t('proof.count')}</th><th scope="col" class="amount">${t('proof.outright')}</th></tr></thead>
    <tbody><${Count} what=${t('proof.whole')} count=${proof.count} outright=${proof.outright} />
      ${proof.variants && html`<${Count} what=${t('proof.structures')} count=${proof.variants} outright=${null} />`}
      ${proof.counts.map((one) => html`<${Count} key=${one.option + one.choice} what=${`${optionLabel(one.option)}: ${choiceLabel(one.option, one.choice)}`} count=${one.count} outright=${one.outright} />`)}
    </tbody></table></div></details>`;

const Told = ({ proof }) => html`<p class=${proof.sound ? 'proof__sound' : 'proof__unsound'}>${proof.sentence}</p>
  ${proof.findings.length ? html`<${Findings} findings=${proof.findings} />` : html`<p>${proof.remarks}</p>`}
  <${Counts} proof=${proof} />`;

/** `path`: of a published book or of a draft. */
export const Proof = ({ path }) => {
  const { body, problem } = useProved(`${path}/proof`);
  return html`<section class="card" aria-labelledby="proof"><h2 id="proof">${t('proof.title')}</h2>
    <p class="quiet">${t('proof.lead')}</p>
    ${problem ? html`<${Notice} problem=${problem} />` : body ? html`<${Told} proof=${body} />` : html`<p role="status">${t('proof.underway')}</p>`}</section>`;
};
