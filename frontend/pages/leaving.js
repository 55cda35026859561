// Shells that are ready to leave, each with all that keeps it in the house, and those that have left. For office and workshop.
import { html } from '../html.js';
import { t } from '../state/language.js';
import { may } from '../state/session.js';
import { useReading } from '../state/reading.js';
import { useSigners } from '../state/signers.js';
import { ExportTerms } from '../components/export-terms/export-terms.js';
import { Notice } from '../components/notice/notice.js';
import { ShellOut } from '../components/shell-out/shell-out.js';

const SECTIONS = [
  ['leaving.ready', ({ despatched }) => !despatched],
  ['leaving.left', ({ despatched }) => despatched],
];

const Section = ({ title, shells, signers, onShell }) => html`<section aria-label=${t(title)}><h2>${t(title)} <small>(${shells.length})</small></h2>
  <ul class="leavings">${shells.map((shell) => html`<${ShellOut} key=${shell.id} shell=${shell} signers=${signers} linked=${true} onShell=${onShell} />`)}</ul></section>`;

export const Leaving = () => {
  const { body, problem, again } = useReading('/api/leaving');
  const signers = useSigners();
  const shells = body.value?.shells ?? [];
  return html`<div class="work"><h1>${t('leaving.title')}</h1><p class="quiet">${t('leaving.lead')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${body.value && SECTIONS.map(([title, of]) => html`<${Section} key=${title} title=${title} shells=${shells.filter(of)} signers=${signers} onShell=${again} />`)}
    ${body.value && may('see-export-terms') && html`<${ExportTerms} />`}</div>`;
};
