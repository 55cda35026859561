// What waits on this tablet to be sent: visibly unsent, on every page. Where the server has moved on, both stand side by side.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { away } from '../../api.js';
import { t } from '../../state/language.js';
import { dayAndTime } from '../../format.js';
import { drop, othersUnsent, sendNow, unsent } from '../../state/unsent.js';
import { Notice } from '../notice/notice.js';
import { CodeField } from '../signature/signature.js';
import { Sure } from '../sure/sure.js';

const Both = ({ entry }) => html`<table class="ruled unsent-bar__both"><thead><tr><th scope="col">${t('unsent.here')}</th><th scope="col">${t('unsent.there')}</th></tr></thead>
  <tbody><tr><td>${entry.says}<br /><small>${dayAndTime(entry.at)}</small></td><td><ul>${entry.moved.map((text) => html`<li key=${text}>${text}</li>`)}</ul></td></tr></tbody></table>
  <p>${t('unsent.choose')}</p>`;

const Sign = ({ entry }) => {
  const code = useSignal('');
  const press = (event) => {
    event.preventDefault();
    sendNow(entry, code.value);
    code.value = '';
  };
  return html`<form class="floor-form" onSubmit=${press}><${CodeField} label=${t('unsent.code', { by: entry.signer.display_name })} code=${code} />
    <button class="button button--heavy">${t('unsent.sign')}</button></form>`;
};

const Acts = ({ entry }) => html`<div class="floor-acts">
  ${entry.signer ? html`<${Sign} entry=${entry} />` : (entry.moved?.length || entry.problem) && html`<button class="button button--heavy" onClick=${() => sendNow(entry)}>${t(entry.problem ? 'away.again' : 'unsent.send-mine')}</button>`}
  ${(entry.moved?.length || entry.problem || entry.signer) && html`<${Sure} label=${t('unsent.leave-out')} says=${t('unsent.leave-out-says')} onPress=${() => drop(entry.id)} />`}</div>`;

const One = ({ entry }) => html`<li class="unsent-bar__one"><span class="unsent-bar__mark">${t('unsent.mark')}</span> <b>${entry.serial}</b> ${entry.says} <small class="quiet">${dayAndTime(entry.at)}</small>
  ${entry.moved?.length > 0 && html`<${Both} entry=${entry} />`}
  ${entry.problem && html`<${Notice} problem=${entry.problem} />`}
  ${!away.value && html`<${Acts} entry=${entry} />`}</li>`;

const Others = () => {
  const names = othersUnsent();
  return names.length > 0 && html`<p class="unsent-bar unsent-bar--others">${t('unsent.others', { names: names.join(', ') })}</p>`;
};

export const Unsent = () => html`${unsent.value.length > 0 && html`<section class="unsent-bar" id="unsent" aria-label=${t('unsent.title')} role="status">
    <h2>${t('unsent.count', { count: unsent.value.length })}</h2><p>${t(away.value ? 'unsent.away' : 'unsent.back')}</p>
    <ul>${unsent.value.map((entry) => html`<${One} key=${entry.id} entry=${entry} />`)}</ul></section>`}
  <${Others} />`;

/** What is unsent of one shell, beside the shell itself. */
export const UnsentOf = ({ shell }) => {
  const own = unsent.value.filter((entry) => entry.shell === shell);
  return own.length > 0 && html`<ul class="unsent-of">${own.map((entry) => html`<li key=${entry.id}><span class="unsent-bar__mark">${t('unsent.mark')}</span> ${entry.says}</li>`)}
    ${!away.value && html`<li><button class="button" onClick=${() => document.getElementById('unsent')?.scrollIntoView({ block: 'start' })}>${t('unsent.look')}</button></li>`}</ul>`;
};
