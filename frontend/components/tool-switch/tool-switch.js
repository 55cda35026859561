// Saying how a tool stands: first the state, then what follows from it, then why, and only then the press that says so.
import { useEffect } from 'preact/hooks';
import { batch, useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { may } from '../../state/session.js';
import { put } from '../../api.js';
import { useProved } from '../../state/proved.js';
import { problemOf } from '../../state/sending.js';
import { TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { Follows } from '../follows/follows.js';

const STATES = ['ok', 'down', 'lost'];
const open = () => STATES.filter((state) => state !== 'lost' || may('lose-tools'));

const States = ({ tool, state, onState }) => html`<fieldset class="states"><legend>${t('tool.state')}</legend>
  ${open().map((one) => html`<label key=${one} class=${`states__one states__one--${one}`}>
    <input type="radio" name=${`state-${tool.id}`} value=${one} checked=${state === one} onChange=${() => onState(one)} />
    <span class=${`tool__state tool__state--${one}`}>${t(`tool.${one}`)}</span></label>`)}</fieldset>`;

const entryOf = (state, until, note) => ({ state, note: note.trim(), ...(state === 'down' && until ? { until } : {}) });
const stands = (tool, entry) => tool.state === entry.state && (tool.until ?? '') === (entry.until ?? '') && tool.note === entry.note;

const Reason = ({ state, until, note }) => html`<div class="tool-switch__fields">
  ${state.value === 'down' && html`<${TextField} label=${t('tool.until')} hint=${t('tool.until-hint')} type="date" value=${until.value} onWrite=${(value) => (until.value = value)} />`}
  <${TextField} label=${t(state.value === 'ok' ? 'tool.note' : 'tool.reason')} hint=${state.value === 'ok' ? null : t('tool.reason-hint')}
    maxlength="500" aria-required=${state.value === 'ok' ? undefined : 'true'} value=${note.value} onWrite=${(value) => (note.value = value)} /></div>`;

/** Only the ways of standing that are not the present one are looked into. */
const useFollows = (tool, state) => useProved(state !== tool.state && `/api/tools/${tool.id}/consequences`, `state=${state}`);

const Seen = ({ seen, changed }) => {
  if (!changed) return null;
  if (seen.problem) return html`<${Notice} problem=${seen.problem} />`;
  return seen.body ? html`<${Follows} found=${seen.body} />` : html`<p>${t('follows.looking')}</p>`;
};

/** The page calls an enquiry's note by another name. */
const ofTool = ({ errors, ...problem }) => ({ ...problem, ...(errors && { errors: Object.fromEntries(Object.entries(errors).map(([path, said]) => [`tool.${path}`, said])) }) });

const Press = ({ tool, entry, ready }) =>
  stands(tool, entry)
    ? html`<p class="quiet">${t('tool.unchanged')}</p>`
    : html`<button class="button button--heavy button--large" disabled=${!ready}>${t(`tool.say-${entry.state}`, { tool: say(tool.label) })}</button>`;

export const ToolSwitch = ({ tool, etag, onDone }) => {
  const [state, until, note, problem] = [useSignal(tool.state), useSignal(tool.until ?? ''), useSignal(tool.note), useSignal(null)];
  const seen = useFollows(tool, state.value);
  const changed = state.value !== tool.state;
  const shown = seen.body?.becomes === state.value ? seen : { body: null, problem: changed ? seen.problem : null };
  const entry = entryOf(state.value, until.value, note.value);
  useEffect(() => void (problem.value = null), [state.value, note.value, until.value]);
  const pick = (one) => batch(() => ((state.value = one), (note.value = one === tool.state ? tool.note : '')));
  const press = async (event) => {
    event.preventDefault();
    if (stands(tool, entry)) return;
    try {
      await put(`/api/tools/${tool.id}`, entry, { etag });
      onDone(true);
    } catch (error) {
      problem.value = ofTool(problemOf(error));
      if (error.status === 412) onDone(false);
    }
  };
  return html`<form class="tool-switch" onSubmit=${press}>
    <${States} tool=${tool} state=${state.value} onState=${pick} />
    <div aria-live="polite"><${Seen} seen=${shown} changed=${changed} /></div>
    <${Reason} state=${state} until=${until} note=${note} />
    <${Press} tool=${tool} entry=${entry} ready=${!changed || shown.body} />
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
  </form>`;
};
