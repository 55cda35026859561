// The weld zones of the stage where the shell is: ticked by whoever welded them and signed together. None is ticked beforehand.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { day } from '../../format.js';
import { today } from '../../state/session.js';
import { useEntering } from '../../state/unsent.js';
import { TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { Signature, useSignature } from '../signature/signature.js';

/** Those up to where the shell is that nobody has signed for. */
export const zonesToSign = (shell) => {
  const come = shell.route.filter(({ stands }) => stands !== 'ahead').map(({ stage }) => stage);
  return shell.zones.filter(({ stage, signed }) => come.includes(stage) && !signed.length);
};

const Tick = ({ zone, ticked, onTick }) => html`<label class="zone-tick"><input type="checkbox" checked=${ticked} onChange=${() => onTick(zone.zone)} />
  <span><b>${say(zone.label)}</b><br /><small>${t('zones.welds', { count: zone.welds })}</small></span></label>`;

export const SignZones = ({ shell, signers, onShell, onLeave }) => {
  const [ticked, on] = [useSignal([]), useSignal(today())];
  const signature = useSignature(signers);
  const { send, problem, busy } = useEntering({ onDone: onShell, onKept: onLeave });
  const open = zonesToSign(shell);
  const tick = (zone) => (ticked.value = ticked.value.includes(zone) ? ticked.value.filter((one) => one !== zone) : [...ticked.value, zone]);
  const press = async (event) => {
    event.preventDefault();
    const zones = open.map(({ zone }) => zone).filter((zone) => ticked.value.includes(zone));
    const { signer, by } = signature;
    const says = t('unsent.says-zones', { by: signer.display_name, zones: open.filter(({ zone }) => zones.includes(zone)).map(({ label }) => say(label)).join(', ') });
    const what = { kind: 'record', shell: shell.id, serial: shell.serial, path: `/api/shells/${shell.id}/welds`, zones, signer, says };
    await send({ ...what, subject: 'weld', body: { zones, by, day: on.value } }, shell, signature.take());
  };
  return html`<form class="floor-form" onSubmit=${press}><fieldset class="zone-ticks"><legend>${t('zones.which')}</legend>
      ${open.map((zone) => html`<${Tick} key=${zone.zone} zone=${zone} ticked=${ticked.value.includes(zone.zone)} onTick=${tick} />`)}
      <button type="button" class="button" onClick=${() => (ticked.value = open.map(({ zone }) => zone))}>${t('zones.all')}</button></fieldset>
    <${TextField} label=${t('zones.day')} type="date" required value=${on.value} onWrite=${(text) => (on.value = text)} />
    <${Signature} of=${signature} />
    <button class="button button--heavy" disabled=${busy.value || !ticked.value.length}>${t('zones.sign', { count: ticked.value.length })}</button>
    <button type="button" class="button" onClick=${onLeave}>${t('floor.leave')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const signedText = ({ signed }) => signed.map((one) => t('zones.signed', { by: one.welder_name, day: day(one.day) })).join(', ');

/** Every zone and who welded it. */
export const WeldZones = ({ shell }) => shell.zones.length > 0 && html`<h4>${t('zones.title')}</h4>
  <ul class="recorded">${shell.zones.map((zone) => html`<li key=${zone.zone}><b>${say(zone.label)}</b> <span class=${zone.signed.length ? 'quiet' : ''}>${signedText(zone) || t('zones.nobody')}</span></li>`)}</ul>`;
