// The first answers of every enquiry, beside the car: body and market. With the series, which comes with the number, they
// settle what the original car had, and one press takes over the rest.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { book, optionOf, optionLabel } from '../../state/book.js';
import { take, takeUsual } from '../../state/edit.js';
import { takenOfAnother } from '../../state/shown.js';
import { listed } from '../../format.js';
import { goToOption } from '../option-row/option-row.js';

const FIRST = ['body', 'market'];
const NEEDED = [...FIRST, 'series'];

const firstMissing = (job) => NEEDED.find((option) => !job.line.value.answers[option] && !(option === 'series' && job.document.value.donor.series));

/** What to say after the usual was taken: nothing, what was left open, or what must be answered first. */
const wordsOf = (left, job) => {
  if (left === null) {
    goToOption(firstMissing(job));
    return t('usual.say-first');
  }
  return left.length ? t('usual.left-open', { options: left.map(optionLabel).join(', ') }) : '';
};

/** So many are named; more are counted. */
const NAMED = 4;

const ofAnother = (job) => {
  const options = job.fresh.value ? takenOfAnother(job.answer.value, job.line.value).map(optionLabel) : [];
  const named = options.length > NAMED ? [...options.slice(0, NAMED), t('usual.more', { count: options.length - NAMED })] : options;
  return options.length ? t('usual.of-another', { options: listed(named) }) : '';
};

const First = ({ job, option }) => {
  const mine = job.line.value.answers[option.id]?.choice;
  return html`<div class="first" role="group" aria-labelledby=${`first-${option.id}`}><span id=${`first-${option.id}`}>${say(option.label)}</span>
    <div class="first__choices">${option.choices.map((choice) => html`<button key=${choice.id} class="button" aria-pressed=${mine === choice.id}
      data-first=${`${option.id}.${choice.id}`} onClick=${() => take(job, option.id, choice.id)}>${say(choice.label)}</button>`)}</div></div>`;
};

const Original = ({ job }) => {
  const said = useSignal('');
  const fill = (everything) => async () => {
    said.value = '';
    try {
      said.value = wordsOf(await takeUsual(job, everything), job);
    } catch (error) {
      said.value = error.problem?.detail ?? t('away.title');
    }
  };
  return html`<div class="deeds" role="group" aria-label=${t('usual.label')}>
    <div class="deed"><button class="button button--heavy" onClick=${fill(false)}>${t('usual.rest')}</button><small>${t('usual.rest-means')}</small></div>
    <div class="deed"><button class="button" onClick=${fill(true)}>${t('usual.everything')}</button><small>${t('usual.everything-means')}</small></div>
    <p class="deeds__said" role="status">${said.value || ofAnother(job)}</p>
  </div>`;
};

export const FirstAnswers = ({ job }) => html`<section class="card firsts" aria-labelledby="firsts-title">
  <h2 id="firsts-title">${t('firsts.title')}</h2>
  <div class="firsts__row">${FIRST.map((role) => optionOf(book.value.roles[role])).filter(Boolean).map((option) => html`<${First} key=${option.id} job=${job} option=${option} />`)}</div>
  <${Original} job=${job} />
</section>`;
