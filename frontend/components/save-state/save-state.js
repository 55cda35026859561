// How safely the job is kept: at the server, on this computer only, or stopped by a colleague's change.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { canBeFiled, save } from '../../state/saving.js';
import { SideBySide } from '../side-by-side/side-by-side.js';
import { Notice } from '../notice/notice.js';

const wordOf = (job) => {
  const { state } = job.saving.value;
  if (!canBeFiled(job.document.value)) return 'save.needs-name';
  if (['away', 'ended', 'conflict', 'refused'].includes(state)) return `save.${state}`;
  if (job.unsaved.value) return 'save.saving';
  return job.enquiryOnly.value ? 'save.no-quotation' : 'save.saved';
};

export const SaveState = ({ job }) => html`<p class="save-state" role="status">${t(wordOf(job))}
  ${job.saving.value.state === 'refused' && html` <button class="plain" onClick=${() => save(job)}>${t('away.again')}</button>`}</p>`;

const lookAtBoth = () => {
  const both = document.getElementById('both');
  both?.scrollIntoView({ block: 'start' });
  both?.focus({ preventScroll: true });
};

/** Stays in sight wherever one reads, and leads to both versions. */
export const ConflictBar = ({ job }) =>
  job.saving.value.state === 'conflict' &&
  html`<div class="banner"><p>${t('conflict.title')}</p><button class="button" onClick=${lookAtBoth}>${t('conflict.look')}</button></div>`;

export const SaveTrouble = ({ job }) => {
  const saving = job.saving.value;
  if (saving.state === 'conflict') return html`<${SideBySide} job=${job} />`;
  if (saving.state === 'refused' && saving.problem) return html`<${Notice} problem=${saving.problem} />`;
  return job.trouble.value && html`<${Notice} problem=${job.trouble.value.problem} />`;
};
