// What is out of its limits, and what becomes of it: conceded by another person, or sent back to be mended.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { useSending } from '../../state/sending.js';
import { SelectField, TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

/** Everything of the phase that is out: points, pairs of points, and what paint would leave. */
export const outOf = (one, phase) => [
  ...one.subjects.filter((each) => each.phase === phase && each.mark === 'out').map((each) => ({ ...each, said: each.label ? `${each.says}: ${each.label}` : each.says })),
  ...one.compared.filter((each) => each.phase === phase && each.mark === 'out').map((each) => ({ ...each, said: each.says })),
  ...(phase === 'metal' ? one.predicted.filter(({ mark }) => mark === 'out').map((each) => ({ ...each, said: each.says })) : []),
];

const Ask = ({ one, failed, onAsked, onLeave }) => {
  const why = useSignal('');
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const body = { subject: failed.about, why: why.value, measured: failed.measured ?? failed.found, limit: failed.limit ?? failed.should_be };
    if (await send(`/api/shells/${one.shell}/concessions`, body)) onAsked();
  };
  return html`<form class="floor-form" onSubmit=${press}><${TextField} label=${t('concession.why')} required autocomplete="off" value=${why.value} onWrite=${(text) => (why.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('concession.ask')}</button><button type="button" class="button" onClick=${onLeave}>${t('floor.leave')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const SendBack = ({ one, failed, onAsked, onLeave }) => {
  const [what, stage] = [useSignal(''), useSignal(one.stages.at(-1)?.stage ?? '')];
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    if (await send(`/api/shells/${one.shell}/rework`, { subject: failed.about, what: what.value, stage: stage.value })) onAsked();
  };
  return html`<form class="floor-form" onSubmit=${press}><${TextField} label=${t('rework.what')} required autocomplete="off" value=${what.value} onWrite=${(text) => (what.value = text)} />
    <${SelectField} label=${t('rework.stage')} value=${stage.value} onWrite=${(text) => (stage.value = text)} options=${one.stages.map((each) => [each.stage, each.label])} />
    <button class="button button--heavy" disabled=${busy.value}>${t('rework.send')}</button><button type="button" class="button" onClick=${onLeave}>${t('floor.leave')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const FORMS = { concession: Ask, rework: SendBack };

/** Told in words, as their limit is. */
const IN_WORDS = ['yes', 'found'];

const standingOf = (one, failed) => one.concessions.filter(({ subject }) => subject === failed.about).at(-1);

const sentBack = (one, failed) => one.reworks.some(({ subject }) => subject === failed.about);

/** It was measured again while its answer is waited for. */
const Overtaken = ({ asked, failed }) => asked.since.filter(({ finding }) => finding === failed.id).map(({ says }) => html`<p class="inspect-stop">${says} ${t('inspect.overtaken')}</p>`);

const Failed = ({ one, failed, onPick, onAsked }) => {
  const open = useSignal('');
  const Form = FORMS[open.value];
  const leave = () => (open.value = '');
  const asked = standingOf(one, failed);
  const waits = asked?.standing === 'asked';
  return html`<li class="inspect-failed"><b>${failed.said}</b> ${failed.measured && html`<span>${t(IN_WORDS.includes(failed.told) ? 'inspect.is-words' : 'inspect.is-limit', { measured: failed.measured, limit: failed.limit })}</span>`}
    ${failed.outgrown && html`<p class="inspect-stop">${failed.outgrown}</p>`}
    ${failed.conceded ? html`<p>${t('inspect.is-conceded', { by: asked?.answered_by_name ?? '', reason: asked?.reason ?? '' })}</p>` : waits ? html`<p>${t('inspect.asked', { by: asked.asked_by_name })}</p><${Overtaken} asked=${asked} failed=${failed} />` : asked?.standing === 'refused' && html`<p>${t('inspect.refused', { by: asked.answered_by_name, reason: asked.reason })}</p>`}
    ${Form ? html`<${Form} one=${one} failed=${failed} onAsked=${() => (leave(), onAsked())} onLeave=${leave} />` : html`<div class="inspect-steps">
      ${failed.told && html`<button type="button" class="button" onClick=${() => onPick(failed.id)}>${t('inspect.read-again')}</button>`}
      ${!failed.conceded && !waits && may('ask-concessions') && html`<button type="button" class="button" onClick=${() => (open.value = 'concession')}>${t('concession.open')}</button>`}
      ${!failed.conceded && !sentBack(one, failed) && may('send-back') && html`<button type="button" class="button" onClick=${() => (open.value = 'rework')}>${t('inspect.rework')}</button>`}</div>`}</li>`;
};

export const Failures = ({ one, phase, onPick, onAsked }) => {
  const out = outOf(one, phase);
  return out.length > 0 && html`<section class="inspect-out" aria-labelledby="inspect-out"><h2 id="inspect-out">${t('inspect.out', { count: out.length })}</h2>
    <ul>${out.map((each) => html`<${Failed} key=${each.id} one=${one} failed=${each} onPick=${onPick} onAsked=${onAsked} />`)}</ul>
    <p class="quiet">${t('inspect.out-then')}</p></section>`;
};
