// The specification of the line in sight: all options by their groups, and the deeds that fill or empty them at once.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { book, optionLabel } from '../../state/book.js';
import { pricesShown } from '../../state/session.js';
import { takeUsual, clearAll, undo, redo } from '../../state/edit.js';
import { openQuestions } from '../../state/shown.js';
import { OptionRow, goToOption } from '../option-row/option-row.js';

const NEEDED = ['body', 'market', 'series'];
const firstMissing = (job) => NEEDED.find((option) => !job.line.value.answers[option] && !(option === 'series' && job.document.value.donor.series));

/** What to say after the usual was taken: nothing, what was left open, or what must be answered first. */
const wordsOf = (left, job) => {
  if (left === null) {
    goToOption(firstMissing(job));
    return t('usual.say-first');
  }
  return left.length ? t('usual.left-open', { options: left.map(optionLabel).join(', ') }) : '';
};

const Deeds = ({ job }) => {
  const said = useSignal('');
  const fill = (everything) => async () => {
    said.value = '';
    try {
      said.value = wordsOf(await takeUsual(job, everything), job);
    } catch (error) {
      said.value = error.problem?.detail ?? t('away.title');
    }
  };
  return html`<div class="deeds" role="toolbar" aria-label=${t('deeds.label')}>
    <button class="button button--heavy" onClick=${fill(false)}>${t('usual.rest')}</button>
    <button class="button" onClick=${fill(true)}>${t('usual.everything')}</button>
    <button class="button" onClick=${() => clearAll(job)}>${t('deeds.clear')}</button>
    <span class="deeds__gap"></span>
    <button class="button" disabled=${!job.past.value.length} onClick=${() => undo(job)} title="Ctrl+Z">${t('deeds.undo')}</button>
    <button class="button" disabled=${!job.future.value.length} onClick=${() => redo(job)} title="Ctrl+Shift+Z">${t('deeds.redo')}</button>
    <p class="deeds__said" role="status">${said.value || t('usual.explained')}</p>
  </div>`;
};

const optionsOf = (group) => book.value.options.filter((option) => option.group === group.id);

const openIn = (job, group) => {
  const open = new Set(openQuestions(job.answer.value, job.line.value));
  return optionsOf(group).filter((option) => open.has(option.id)).length;
};

const GroupLinks = ({ job }) => html`<nav class="group-links" aria-label=${t('groups.label')}>
  ${book.value.groups.map((group) => html`<a key=${group.id} href=${`#group-${group.id}`}>${say(group.label)}
    <small>${job.answer.value ? (openIn(job, group) ? t('groups.open', { count: openIn(job, group) }) : t('groups.done')) : ''}</small></a>`)}
</nav>`;

const Group = ({ job, group }) => html`<section class="group" id=${`group-${group.id}`} aria-labelledby=${`group-title-${group.id}`}>
  <h3 class="group__title" id=${`group-title-${group.id}`}>${say(group.label)} <small>${pricesShown.value ? t('groups.differences') : ''}</small></h3>
  ${optionsOf(group).map((option) => html`<${OptionRow} key=${option.id} job=${job} option=${option} />`)}
</section>`;

export const Specification = ({ job }) => html`<section class="specification" aria-labelledby="specification-title">
  <h2 id="specification-title">${t('specification.title')}</h2>
  <${Deeds} job=${job} />
  <${GroupLinks} job=${job} />
  ${book.value.groups.map((group) => html`<${Group} key=${group.id} job=${job} group=${group} />`)}
</section>`;
