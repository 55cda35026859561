// What is sold beside the specification, by number.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { book } from '../../state/book.js';
import { narrow } from '../../state/narrow.js';
import { setExtra } from '../../state/edit.js';
import { WholeNumber } from '../whole-number/whole-number.js';

/** As many as the server takes of one extra. */
const MOST = 1000;

const Rows = ({ job }) => html`<div class="extras">${(book.value?.extras ?? []).map((extra) => html`<${WholeNumber} key=${extra.id} job=${job} name=${`extra.${extra.id}`}
  label=${say(extra.label)} unit=${say(extra.unit)} least=${0} most=${MOST} value=${job.document.value.extras.find((row) => row.extra === extra.id)?.quantity ?? 0}
  onWrite=${(quantity) => setExtra(job, extra.id, quantity)} />`)}</div>`;

const sold = (job) => job.document.value.extras.reduce((sum, { quantity }) => sum + quantity, 0);

/** Folded away on a telephone, with how many there are. */
export const Extras = ({ job }) =>
  narrow.value
    ? html`<details class="card"><summary>${t('extras.title')}: ${sold(job)}</summary><${Rows} job=${job} /></details>`
    : html`<section class="card" aria-labelledby="extras-title"><h2 id="extras-title">${t('extras.title')}</h2><${Rows} job=${job} /></section>`;
