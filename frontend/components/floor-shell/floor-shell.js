// One shell on the floor: where it is, what stops it, and the deeds that can be done to it as it stands. Made for gloves.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { may } from '../../state/session.js';
import { day, dayAndTime } from '../../format.js';
import { useSending } from '../../state/sending.js';
import { isOver } from '../../state/shells.js';
import { useEntering } from '../../state/unsent.js';
import { AskConcession, Concessions } from '../concessions/concessions.js';
import { TextField } from '../field/field.js';
import { FreezeLine } from '../freeze-line/freeze-line.js';
import { Link } from '../link/link.js';
import { Notice } from '../notice/notice.js';
import { Reworks, SendBack } from '../rework/rework.js';
import { forWhom, placeId, stopsOf } from '../floor-today/floor-today.js';
import { Signature, useSignature } from '../signature/signature.js';
import { SellAsSecond } from '../stock/sell-as-second.js';
import { UnsentOf } from '../unsent/unsent.js';
import { SignZones, WeldZones, zonesToSign } from '../weld-zones/weld-zones.js';

/** The deed of the server → its address, its text, who may do it. */
const SAID = {
  held: ['hold', 'floor.hold', 'hold-shells'],
  'went-on': ['go-on', 'floor.go-on', 'hold-shells'],
  rejected: ['rejection', 'floor.reject', 'reject-shells'],
  'sheet-again': ['sheet-revisions', 'sheets.again', 'release-shells'],
};

const labelOf = (shell, stage) => say(shell.route.find((one) => one.stage === stage)?.label) || stage;

const ofShell = (shell, address) => ({ kind: 'record', shell: shell.id, serial: shell.serial, path: `/api/shells/${shell.id}/${address}` });

const Sign = ({ shell, deed, signers, onShell, onLeave }) => {
  const signature = useSignature(signers);
  const { send, problem, busy } = useEntering({ onDone: onShell, onKept: onLeave });
  const press = async (event) => {
    event.preventDefault();
    const { signer, by } = signature;
    const stage = t(`floor.deed.${deed}`, { stage: labelOf(shell, shell.stage) });
    const says = t('unsent.says-stage', { stage, by: signer.display_name });
    await send({ ...ofShell(shell, 'stages'), body: { deed, stage: shell.stage, by }, signer, says }, shell, signature.take());
  };
  return html`<form class="floor-form" onSubmit=${press}>
    <${Signature} of=${signature} />
    <button class="button button--heavy" disabled=${busy.value}>${t('floor.sign')}</button><button type="button" class="button" onClick=${onLeave}>${t('floor.leave')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Why = ({ shell, deed, onShell, onLeave }) => {
  const why = useSignal('');
  const { send, problem, busy } = useEntering({ onDone: onShell, onKept: onLeave });
  const [address, text] = SAID[deed];
  const press = async (event) => {
    event.preventDefault();
    const says = t('unsent.says-hold', { deed: t(text), why: why.value });
    await send({ ...ofShell(shell, address), body: { why: why.value }, says }, shell);
  };
  return html`<form class="floor-form" onSubmit=${press}><${TextField} label=${t('floor.why')} required autocomplete="off" value=${why.value} onWrite=${(said) => (why.value = said)} />
    <button class="button button--heavy" disabled=${busy.value}>${t(text)}</button><button type="button" class="button" onClick=${onLeave}>${t('floor.leave')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

/** What takes nothing but a press. */
const Press = ({ shell, address, text, onShell }) => {
  const { send, problem, busy } = useSending();
  const press = async () => {
    const after = await send(`/api/shells/${shell.id}/${address}`);
    if (after) onShell(after);
  };
  return html`<button class="button button--heavy" disabled=${busy.value} onClick=${press}>${t(text)}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}`;
};

const Deeds = ({ shell }) => shell.deeds.length > 0 && html`<h4>${t('floor.history')}</h4><ol class="history">${shell.deeds.map((done, at) => html`<li key=${at}><time>${dayAndTime(done.at)}</time> ${t(`floor.deed.${done.deed}`, { stage: done.stage ? labelOf(shell, done.stage) : '' })}${done.why ? `: ${done.why}` : ''}
  <span class="quiet"> ${done.signed_name ? t('floor.signed', { by: done.signed_name }) : done.by_name}</span></li>`)}</ol>`;

/** When the stage where it is was planned; of one that is not released, its first. */
const planned = (shell) => {
  if (shell.state === 'ready' || isOver(shell)) return '';
  const at = shell.route.find(({ stage, start }) => start && (stage === shell.stage || !shell.stage));
  return at ? t('floor.planned', { start: day(at.start), end: day(at.end) }) : '';
};

/** What is seldom done stands behind one press, so that the shells of a day stand on a page or two. */
const Otherwise = ({ deeds, onPick }) => deeds.length > 0 && html`<details class="floor-shell__more"><summary>${t('floor.else')}</summary>
  <div class="floor-acts">${deeds.map(([deed, text]) => html`<button key=${deed} class="button" onClick=${() => onPick(deed)}>${t(text)}</button>`)}</div></details>`;

const entering = (shell) => [
  shell.may.includes('sent-back') && may('send-back') && ['sent-back', 'rework.send'],
  !isOver(shell) && may('ask-concessions') && ['concession', 'concession.open'],
].filter(Boolean);

/** The inspection is signed with its verdict, on a page of its own; paint is done once its coat has one. */
const inspects = (shell) => shell.coat_due || shell.route.some(({ stage, work }) => stage === shell.stage && work === 'inspection');

const Acts = ({ shell, names, signers, onShell }) => {
  const open = useSignal(null);
  const done = (after) => ((open.value = null), onShell(after));
  const leave = () => (open.value = null);
  const can = (deed) => shell.may.includes(deed);
  const stage = shell.stage && labelOf(shell, shell.stage);
  const said = Object.keys(SAID).filter((deed) => can(deed) && may(SAID[deed][2]));
  const forms = { zones: SignZones, concession: AskConcession, 'sent-back': SendBack };
  const unsigned = zonesToSign(shell).length;
  const welding = may('sign-stages') && !shell.held && unsigned > 0 && shell.serial;
  const signing = may('sign-stages') && !unsigned && !shell.stops.length && ['begun', 'done'].find(can);
  const Form = forms[open.value];
  if (Form) return html`<${Form} shell=${shell} names=${names} signers=${signers} onShell=${done} onLeave=${leave} />`;
  if (signing && open.value === signing) return html`<${Sign} shell=${shell} deed=${signing} signers=${signers} onShell=${done} onLeave=${leave} />`;
  if (open.value in SAID) return html`<${Why} shell=${shell} deed=${open.value} onShell=${done} onLeave=${leave} />`;
  return html`<div class="floor-acts">
    ${can('released') && html`<${Link} to=${`/floor/${shell.id}/kit`} class="button floor-kit">${shell.unchecked ? t('kit.open', { count: shell.unchecked }) : t('kit.look')}<//>`}
    ${can('released') && may('release-shells') && !shell.stops.length && !shell.unchecked && html`<${Press} shell=${shell} address="release" text="floor.release" onShell=${onShell} />`}
    ${can('replaced') && may('release-shells') && html`<${Press} shell=${shell} address="replacement" text="floor.replace" onShell=${onShell} />`}
    ${can('second') && html`<${SellAsSecond} shell=${shell.id} onSold=${done} />`}
    ${welding && html`<button class="button button--heavy" onClick=${() => (open.value = 'zones')}>${t('zones.open', { count: unsigned })}</button>`}
    ${signing && shell.coat_due && html`<p class="floor-coat">${t('inspect.coat-first')}</p>`}
    ${signing && inspects(shell) && may('see-inspections') && html`<${Link} class="button button--heavy floor-link" to=${`/inspections/${shell.serial}`}>${t('inspect.floor')}<//>`}
    ${signing && !inspects(shell) && html`<button class="button button--heavy" onClick=${() => (open.value = signing)}>${signing === 'begun' ? t('floor.begin') : t('floor.done', { stage })}</button>`}
    <${Otherwise} deeds=${[...entering(shell), ...said.map((deed) => [deed, SAID[deed][1]])]} onPick=${(deed) => (open.value = deed)} />
    ${can('cancelled') && may('cancel-shells') && html`<${Link} class="button floor-link" to=${`/shells/${shell.id}/changes`}>${t('floor.cancel')}<//>`}</div>`;
};

export const FloorShell = ({ shell, names, signers, onShell }) => html`<li class=${`floor-shell floor-shell--${shell.state}`} id=${placeId(shell)} tabindex="-1">
  <div class="floor-shell__head"><h3>${shell.serial ?? t('order.no-serial')}</h3><span class=${`standing standing--${shell.state}`}>${t(`shell.${shell.state}`)}</span></div>
  <p><b>${say(shell.name)}</b><br /><span class="quiet">${forWhom(shell)}${shell.replaced.length ? ` · ${t('floor.replaces', { serials: shell.replaced.join(', ') })}` : ''}</span></p>
  ${shell.sheet && html`<p><a class="floor-sheet" target="_blank" rel="noopener" href=${shell.sheet.path}>${t('sheets.revision', { revision: shell.sheet.revision, day: day(shell.sheet.day) })}</a></p>`}
  ${planned(shell) && html`<p class="quiet">${planned(shell)}</p>`}
  ${stopsOf(shell).length > 0 && html`<div class="floor-stop"><b>${t('floor.stopped')}</b><ul>${stopsOf(shell).map((says) => html`<li key=${says}>${says}</li>`)}</ul></div>`}
  <${UnsentOf} shell=${shell.id} />
  <${Reworks} shell=${shell} signers=${signers} onShell=${onShell} open=${true} />
  <${Acts} shell=${shell} names=${names} signers=${signers} onShell=${onShell} />
  <${Concessions} shell=${shell} onShell=${onShell} />
  ${shell.state === 'ready' && may('see-leaving') && html`<p class="leaving-link"><${Link} to="/leaving">${t('leaving.title')}<//></p>`}
  <details class="floor-shell__more"><summary>${t('floor.more')}</summary><${FreezeLine} shell=${shell} /><${WeldZones} shell=${shell} /><${Reworks} shell=${shell} signers=${signers} onShell=${onShell} open=${false} /><${Deeds} shell=${shell} /></details></li>`;
