// A shell on its way out: its balance, what keeps it in the house, how it is packed, its papers, and the deed itself.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { may } from '../../state/session.js';
import { day, dayAndTime, money } from '../../format.js';
import { useSending } from '../../state/sending.js';
import { Folded } from '../folded/folded.js';
import { Link } from '../link/link.js';
import { Notice } from '../notice/notice.js';
import { Signature, useSignature } from '../signature/signature.js';
import { ExportEvidence } from './export-evidence.js';
import { PackingForm } from './packing-form.js';
import { ShellPapers } from './shell-papers.js';

const balanceText = ({ invoice, due, open, currency, cleared, on_credit: onCredit }) => {
  if (!invoice) return t('leaving.not-billed');
  if (due === null) return t(cleared ? 'leaving.cleared' : 'leaving.open-hidden', { invoice });
  if (onCredit) return t('leaving.on-credit', { invoice, due: money(due, currency), open: money(open, currency) });
  return cleared ? t('leaving.paid', { invoice, due: money(due, currency) }) : t('leaving.open', { invoice, due: money(due, currency), open: money(open, currency) });
};

const Packed = ({ packing }) => html`<p>${packing.packages.map(({ kind, length, width, height, mass }) => t('leaving.package', { kind, length, width, height, mass })).join('; ')}${packing.carrier ? `. ${packing.carrier}` : ''}</p>`;

const Keeps = ({ keeps }) => html`<div class="floor-stop"><b>${t('leaving.keeps')}</b><ul>${keeps.map(({ what, says }) => html`<li key=${what}>${says}</li>`)}</ul></div>`;

const Despatch = ({ shell, signers, onShell, onDone }) => {
  const signature = useSignature(signers);
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/shells/${shell.id}/despatch`, { by: signature.by, code: signature.take() });
    if (after) (onDone(), onShell(after));
  };
  return html`<form class="money-form" onSubmit=${press}><p class="money-form__lead quiet">${t('leaving.despatch-lead')}</p>
    <${Signature} of=${signature} label=${t('leaving.who')} />
    <button class="button button--heavy" disabled=${busy.value}>${t('leaving.despatch-now')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Acts = ({ shell, signers, onShell }) => html`<div class="acts">
  ${may('pack') && html`<${Folded} label=${t(shell.packing ? 'leaving.repack' : 'leaving.pack')}>${(close) => html`<${PackingForm} shell=${shell} onShell=${onShell} onDone=${close} />`}<//>`}
  ${may('despatch') && !shell.keeps.length && html`<${Folded} heavy=${true} label=${t('leaving.despatch')}>${(close) => html`<${Despatch} shell=${shell} signers=${signers} onShell=${onShell} onDone=${close} />`}<//>`}</div>`;

const Gone = ({ gone }) => html`<p><b>${t('leaving.gone', { number: gone.number, at: dayAndTime(gone.at) })}</b> <span class="quiet">${t('floor.signed', { by: gone.signed_name })}</span></p>`;

const Head = ({ shell, linked }) => html`<div class="leaving__head"><h3>${shell.serial ?? t('order.no-serial')}</h3><span class=${`standing standing--${shell.state}`}>${t(`shell.${shell.state}`)}</span></div>
  <p><b>${say(shell.name)}</b><br />${linked && may('read-orders') ? html`<${Link} to=${`/orders/${shell.order}`}>${t('floor.which', { order: shell.order, shell: shell.place, of: shell.of })}<//>` : html`<span class="quiet">${t('floor.which', { order: shell.order, shell: shell.place, of: shell.of })}</span>`} <span class="quiet">${shell.customer}</span></p>`;

/** `linked`: with the way to its order; `children`: what the page adds, such as the writing of its invoice. */
export const ShellOut = ({ shell, signers, linked = false, onShell, children }) => html`<li class=${`leaving leaving--${shell.state}`}>
  <${Head} shell=${shell} linked=${linked} />
  <p>${balanceText(shell)}</p>
  ${shell.overcoat_by && html`<p>${t('leaving.overcoat', { day: day(shell.overcoat_by) })}</p>`}
  ${shell.packing && html`<${Packed} packing=${shell.packing} />`}
  ${shell.despatched ? html`<${Gone} gone=${shell.despatched} />` : shell.keeps.length > 0 && html`<${Keeps} keeps=${shell.keeps} />`}
  ${shell.export_evidence && html`<${ExportEvidence} shell=${shell} onShell=${onShell} />`}
  ${children}
  ${!shell.despatched && html`<${Acts} shell=${shell} signers=${signers} onShell=${onShell} />`}
  <${ShellPapers} shell=${shell} /></li>`;
