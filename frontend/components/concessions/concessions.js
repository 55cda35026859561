// Concessions of a shell: what may stay as it is, who asked, who said yes or no, and why. Asked for here; another answers.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may, person } from '../../state/session.js';
import { day, dayAndTime } from '../../format.js';
import { errorOf, useSending } from '../../state/sending.js';
import { useEntering } from '../../state/unsent.js';
import { TextArea, TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { SubjectField } from '../subject-field/subject-field.js';

const measuredText = ({ measured, limit }) => [measured && t('concession.was', { measured }), limit && t('concession.is', { limit })].filter(Boolean).join(' · ');

const Answered = ({ one }) => html`<span class=${`concession__stands concession__stands--${one.standing}`}>${t(`concession.${one.standing}`)}</span>${one.reason && html` <q>${one.reason}</q> <span class="quiet">${t('concession.answered', { by: one.answered_by_name, day: day(one.answered_on) })}</span>`}`;

/** What came after it was asked for: a yes doesn't cover it, so whoever answers reads it first. */
const Since = ({ one }) => one.since.length > 0 && html`<div class="concession__since"><b>${t('concession.since')}</b>
  <ul>${one.since.map(({ finding, of, limit, says: told }) => html`<li key=${finding}><b>${of}</b>: ${told} <span class="quiet">${t('concession.is', { limit })}</span></li>`)}</ul>
  <p>${t('concession.since-then')}</p></div>`;

export const Concession = ({ one, children }) => html`<li class="recorded__one"><b>${one.says}</b> ${measuredText(one) && html`<span>${measuredText(one)}</span> `}<q>${one.why}</q> <span class="quiet">${t('concession.by', { by: one.asked_by_name, at: dayAndTime(one.asked_at) })}</span> <${Answered} one=${one} /><${Since} one=${one} />${children}</li>`;

/** Granted or refused, by another than who asked. */
export const AnswerConcession = ({ shell, one, onShell }) => {
  const reason = useSignal('');
  const { send, problem, busy } = useSending();
  const say = async (answer) => {
    const after = await send(`/api/shells/${shell}/concessions/${one.id}/answer`, { answer, reason: reason.value });
    if (after) onShell(after);
  };
  if (one.standing !== 'asked' || !may('answer-concessions')) return null;
  if (one.asked_by === person.value.name) return html`<p class="quiet">${t('concession.own')}</p>`;
  return html`<form class="floor-form floor-form--standing" onSubmit=${(event) => event.preventDefault()}>
    <${TextField} label=${t('concession.reason')} required autocomplete="off" value=${reason.value} error=${errorOf(problem, 'reason')} onWrite=${(text) => (reason.value = text)} />
    <button type="button" class="button button--heavy" disabled=${busy.value} onClick=${() => say('granted')}>${t('concession.grant')}</button>
    <button type="button" class="button" disabled=${busy.value} onClick=${() => say('refused')}>${t('concession.refuse')}</button>
    ${problem.value && !problem.value.errors?.reason && html`<${Notice} problem=${problem.value} />`}</form>`;
};

export const AskConcession = ({ shell, names, onShell, onLeave }) => {
  const [about, why, measured, limit] = [useSignal(null), useSignal(''), useSignal(''), useSignal('')];
  const { send, problem, busy } = useEntering({ onDone: onShell, onKept: onLeave });
  const press = async (event) => {
    event.preventDefault();
    const body = { subject: about.value.subject, why: why.value, measured: measured.value, limit: limit.value };
    const said = { about: about.value.says, why: [measuredText(body), body.why].filter(Boolean).join('. ') };
    await send({ kind: 'record', shell: shell.id, serial: shell.serial, path: `/api/shells/${shell.id}/concessions`, body, subject: body.subject, says: t('unsent.says-concession', said) }, shell);
  };
  return html`<form class="floor-form" onSubmit=${press}><${SubjectField} shell=${shell} names=${names} value=${about.value} onPick=${(one) => (about.value = one)} />
    <${TextField} label=${t('concession.measured')} hint=${t('concession.unit')} autocomplete="off" maxlength="200" value=${measured.value} onWrite=${(text) => (measured.value = text)} />
    <${TextField} label=${t('concession.limit')} autocomplete="off" maxlength="200" value=${limit.value} onWrite=${(text) => (limit.value = text)} />
    <${TextArea} label=${t('concession.why')} required value=${why.value} onWrite=${(text) => (why.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('concession.ask')}</button>
    <button type="button" class="button" onClick=${onLeave}>${t('floor.leave')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

export const Concessions = ({ shell, onShell }) => shell.concessions.length > 0 && html`<h4>${t('concession.title')}</h4>
  <ul class="recorded">${shell.concessions.map((one) => html`<${Concession} key=${one.id} one=${one}><${AnswerConcession} shell=${shell.id} one=${one} onShell=${onShell} /><//>`)}</ul>`;
