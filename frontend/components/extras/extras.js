// What is sold beside the specification, by number.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { book } from '../../state/book.js';
import { setExtra } from '../../state/edit.js';
import { WholeNumber } from '../whole-number/whole-number.js';

/** As many as the server takes of one extra. */
const MOST = 1000;

export const Extras = ({ job }) => html`<section class="card" aria-labelledby="extras-title">
  <h2 id="extras-title">${t('extras.title')}</h2>
  <div class="extras">${(book.value?.extras ?? []).map((extra) => html`<${WholeNumber} key=${extra.id} job=${job} name=${`extra.${extra.id}`} label=${say(extra.label)} unit=${say(extra.unit)}
    least=${0} most=${MOST} value=${job.document.value.extras.find((row) => row.extra === extra.id)?.quantity ?? 0}
    onWrite=${(quantity) => setExtra(job, extra.id, quantity)} />`)}</div>
</section>`;
