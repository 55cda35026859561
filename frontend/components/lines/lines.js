// The lines of the quotation: which one is being written, how many shells of it, another one, a copy.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { shellName } from '../../state/book.js';
import { addLine, removeLine, setQuantity } from '../../state/edit.js';
import { WholeNumber } from '../whole-number/whole-number.js';

/** As many as the server takes on one line. */
const MOST = 1000;

const nameOf = ({ answers }) => shellName(Object.fromEntries(Object.entries(answers).map(([option, { choice }]) => [option, choice]))) || t('lines.empty');

const Line = ({ job, line, at, alone }) => html`<li class="line">
  <button class="line__pick" aria-pressed=${job.line.value.key === line.key} onClick=${() => (job.lineKey.value = line.key)}>
    <b>${at + 1}</b> <span>${nameOf(line)}</span></button>
  <${WholeNumber} job=${job} name=${`quantity.${line.key}`} label=${t('lines.shells')} least=${1} most=${MOST} value=${line.quantity}
    onWrite=${(quantity) => setQuantity(job, line.key, quantity)} />
  <button class="plain" onClick=${() => addLine(job, line)} aria-label=${t('lines.copy-of', { line: at + 1 })}>${t('lines.copy')}</button>
  ${!alone && html`<button class="plain" onClick=${() => removeLine(job, line.key)} aria-label=${t('lines.remove-of', { line: at + 1 })}>${t('lines.remove')}</button>`}
</li>`;

export const Lines = ({ job }) => {
  const { lines } = job.document.value;
  return html`<section class="card" aria-labelledby="lines-title">
    <h2 id="lines-title">${t('lines.title')}</h2>
    <ul class="lines">${lines.map((line, at) => html`<${Line} key=${line.key} job=${job} line=${line} at=${at} alone=${lines.length === 1} />`)}</ul>
    <button class="button" onClick=${() => addLine(job)}>${t('lines.add')}</button>
  </section>`;
};
