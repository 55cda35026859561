// Shells that are ready to leave, each with all that keeps it in the house, those that left and whose evidence of export is
// awaited, the most pressing first, and the others that have left. For office and workshop.
import { html } from '../html.js';
import { t } from '../state/language.js';
import { may } from '../state/session.js';
import { useReading } from '../state/reading.js';
import { useSigners } from '../state/signers.js';
import { ExportTerms } from '../components/export-terms/export-terms.js';
import { Notice } from '../components/notice/notice.js';
import { ShellOut } from '../components/shell-out/shell-out.js';

const awaited = ({ export_evidence: evidence }) => ['awaited', 'overdue'].includes(evidence?.stands);
const byDue = (one, other) => (one.export_evidence.due < other.export_evidence.due ? -1 : 1);

/** Title → which shells, in their order; what may be empty is left out then. */
const SECTIONS = [
  ['leaving.ready', (shells) => shells.filter(({ despatched }) => !despatched), false],
  ['evidence.title', (shells) => shells.filter(awaited).toSorted(byDue), true],
  ['leaving.left', (shells) => shells.filter((one) => one.despatched && !awaited(one)), false],
];

const Section = ({ title, shells, signers, onShell }) => html`<section aria-label=${t(title)}><h2>${t(title)} <small>(${shells.length})</small></h2>
  <ul class="leavings">${shells.map((shell) => html`<${ShellOut} key=${shell.id} shell=${shell} signers=${signers} linked=${true} onShell=${onShell} />`)}</ul></section>`;

export const Leaving = () => {
  const { body, problem, again } = useReading('/api/leaving');
  const signers = useSigners();
  const shells = body.value?.shells ?? [];
  return html`<div class="work"><h1>${t('leaving.title')}</h1><p class="quiet">${t('leaving.lead')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${body.value && SECTIONS.map(([title, of, hidden]) => (!hidden || of(shells).length > 0) && html`<${Section} key=${title} title=${title} shells=${of(shells)} signers=${signers} onShell=${again} />`)}
    ${body.value && may('see-export-terms') && html`<${ExportTerms} />`}</div>`;
};
