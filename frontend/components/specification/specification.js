// The specification of the line in sight: all options by their groups. Its head, with the drawing, stays in sight.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { book } from '../../state/book.js';
import { pricesShown } from '../../state/session.js';
import { clearAll, undo, redo } from '../../state/edit.js';
import { openQuestions } from '../../state/shown.js';
import { JobDrawing } from '../shell-drawing/shell-drawing.js';
import { OptionRow } from '../option-row/option-row.js';

const Steps = ({ job }) => html`<div class="steps" role="toolbar" aria-label=${t('deeds.label')}>
  <button class="button" disabled=${!job.past.value.length} onClick=${() => undo(job)} title="Ctrl+Z">${t('deeds.undo')}</button>
  <button class="button" disabled=${!job.future.value.length} onClick=${() => redo(job)} title="Ctrl+Shift+Z">${t('deeds.redo')}</button>
  <button class="button" onClick=${() => clearAll(job)}>${t('deeds.clear')}</button>
</div>`;

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
  <div class="specification__title"><h2 id="specification-title">${t('specification.title')}</h2><${Steps} job=${job} /></div>
  <div class="specification__head"><${JobDrawing} job=${job} /><${GroupLinks} job=${job} /></div>
  ${book.value.groups.map((group) => html`<${Group} key=${group.id} job=${job} group=${group} />`)}
</section>`;
