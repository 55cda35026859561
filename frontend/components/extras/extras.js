// What is sold beside the specification, by number.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { book } from '../../state/book.js';
import { setExtra } from '../../state/edit.js';

const whole = (text) => Math.max(0, Math.min(999, Number.parseInt(text, 10) || 0));

export const Extras = ({ job }) => html`<section class="card" aria-labelledby="extras-title">
  <h2 id="extras-title">${t('extras.title')}</h2>
  <div class="extras">${(book.value?.extras ?? []).map((extra) => html`<label key=${extra.id} class="extras__row">
    <span>${say(extra.label)}</span>
    <input type="number" inputmode="numeric" min="0" max="999" value=${job.document.value.extras.find((row) => row.extra === extra.id)?.quantity ?? 0}
      onChange=${(event) => setExtra(job, extra.id, whole(event.target.value))} />
    <small>${say(extra.unit)}</small></label>`)}</div>
</section>`;
