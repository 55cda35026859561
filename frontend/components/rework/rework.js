// Rework of a shell: what is to be mended, at which stage, who found it; mended under a personal code, or withdrawn.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { may } from '../../state/session.js';
import { day, dayAndTime } from '../../format.js';
import { useSending } from '../../state/sending.js';
import { useEntering } from '../../state/unsent.js';
import { SelectField, TextArea, TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { Signature, useSignature } from '../signature/signature.js';
import { SubjectField } from '../subject-field/subject-field.js';

export const openRework = (shell) => shell.reworks.filter(({ standing }) => standing === 'open');

const stageOf = (shell, stage) => say(shell.route.find((one) => one.stage === stage)?.label) || stage;

/** Minutes that somebody may have spent, by a tick: nobody types with gloves. */
const MINUTES = [15, 30, 45, 60, 90, 120, 180, 240, 360, 480];

const hoursText = (minutes) => t('rework.hours', { hours: `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}` });

const Ended = ({ one }) => html`<span class=${`rework__stands rework__stands--${one.standing}`}>${t(`rework.${one.standing}`)}</span>
  ${one.ended_by_name && html` <span class="quiet">${t('rework.ended', { by: one.ended_by_name, day: day(one.ended_on) })}${one.minutes ? `, ${hoursText(one.minutes)}` : ''}</span>`} ${one.note && html`<q>${one.note}</q>`}`;

const Mend = ({ shell, one, signers, onShell, onLeave }) => {
  const [minutes, note] = [useSignal(''), useSignal('')];
  const signature = useSignature(signers);
  const { send, problem, busy } = useEntering({ onDone: onShell, onKept: onLeave });
  const press = async (event) => {
    event.preventDefault();
    const { signer, by } = signature;
    const body = { by, note: note.value, minutes: minutes.value ? Number(minutes.value) : null };
    const [path, says] = [`/api/shells/${shell.id}/rework/${one.id}/mended`, t('unsent.says-mended', { by: signer.display_name, about: one.says })];
    await send({ kind: 'record', shell: shell.id, serial: shell.serial, path, body, subject: one.subject, signer, says }, shell, signature.take());
  };
  return html`<form class="floor-form" onSubmit=${press}><${TextField} label=${t('rework.note')} autocomplete="off" value=${note.value} onWrite=${(text) => (note.value = text)} />
    <${SelectField} label=${t('rework.took')} value=${minutes.value} onWrite=${(text) => (minutes.value = text)} options=${[['', t('rework.not-said')], ...MINUTES.map((count) => [String(count), hoursText(count)])]} />
    <${Signature} of=${signature} /><button class="button button--heavy" disabled=${busy.value}>${t('rework.mend')}</button>
    <button type="button" class="button" onClick=${onLeave}>${t('floor.leave')}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Withdraw = ({ shell, one, onShell, onLeave }) => {
  const why = useSignal('');
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/shells/${shell.id}/rework/${one.id}/withdrawal`, { why: why.value });
    if (after) onShell(after);
  };
  return html`<form class="floor-form" onSubmit=${press}><${TextField} label=${t('floor.why')} required autocomplete="off" value=${why.value} onWrite=${(text) => (why.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('rework.withdraw')}</button><button type="button" class="button" onClick=${onLeave}>${t('floor.leave')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const FORMS = { mend: Mend, withdraw: Withdraw };

const Acts = ({ shell, one, signers, onShell }) => {
  const open = useSignal(null);
  if (one.standing !== 'open') return null;
  const Form = FORMS[open.value];
  if (Form) return html`<${Form} shell=${shell} one=${one} signers=${signers} onShell=${onShell} onLeave=${() => (open.value = null)} />`;
  return html`<div class="floor-acts">${may('sign-rework') && html`<button class="button button--heavy" onClick=${() => (open.value = 'mend')}>${t('rework.mend')}</button>`}
    ${may('withdraw-rework') && html`<button class="button" onClick=${() => (open.value = 'withdraw')}>${t('rework.withdraw')}</button>`}</div>`;
};

const One = ({ shell, one, signers, onShell }) => html`<li class="recorded__one"><b>${one.says}</b> <q>${one.what}</q> <span class="quiet">${t('rework.found', { by: one.found_by_name, at: dayAndTime(one.found_at), stage: stageOf(shell, one.stage) })}</span> <${Ended} one=${one} />
  <${Acts} shell=${shell} one=${one} signers=${signers} onShell=${onShell} /></li>`;

/** `open`: what is still to be mended, or (false) what was. */
export const Reworks = ({ shell, signers, onShell, open }) => {
  const shown = shell.reworks.filter(({ standing }) => (standing === 'open') === open);
  return shown.length > 0 && html`<h4>${t(open ? 'rework.to-mend' : 'rework.title')}</h4>
    <ul class="recorded">${shown.map((one) => html`<${One} key=${one.id} shell=${shell} one=${one} signers=${signers} onShell=${onShell} />`)}</ul>`;
};

export const SendBack = ({ shell, names, onShell, onLeave }) => {
  const come = shell.route.filter(({ stands, work }) => stands !== 'ahead' && work !== 'none');
  const [about, what, stage] = [useSignal(null), useSignal(''), useSignal(shell.stage ?? come.at(-1)?.stage ?? '')];
  const { send, problem, busy } = useEntering({ onDone: onShell, onKept: onLeave });
  const press = async (event) => {
    event.preventDefault();
    const body = { subject: about.value.subject, what: what.value, stage: stage.value };
    const says = t('unsent.says-rework', { about: about.value.says, what: what.value });
    await send({ kind: 'record', shell: shell.id, serial: shell.serial, path: `/api/shells/${shell.id}/rework`, body, subject: body.subject, says }, shell);
  };
  return html`<form class="floor-form" onSubmit=${press}><${SubjectField} shell=${shell} names=${names} value=${about.value} onPick=${(one) => (about.value = one)} />
    <${TextArea} label=${t('rework.what')} required value=${what.value} onWrite=${(text) => (what.value = text)} />
    <${SelectField} label=${t('rework.stage')} value=${stage.value} onWrite=${(text) => (stage.value = text)} options=${come.map((one) => [one.stage, say(one.label)])} />
    <button class="button button--heavy" disabled=${busy.value}>${t('rework.send')}</button><button type="button" class="button" onClick=${onLeave}>${t('floor.leave')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};
