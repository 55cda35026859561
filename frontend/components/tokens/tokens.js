// Tokens of a dealer's own programs: made here and shown once, listed with their last use, revoked. The manager sees them all.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { isDealer, may } from '../../state/session.js';
import { remove } from '../../api.js';
import { day, dayAndTime, lastDay } from '../../format.js';
import { errorOf, problemOf, useSending } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { TextField, TickField } from '../field/field.js';
import { Folded } from '../folded/folded.js';
import { Notice } from '../notice/notice.js';
import { ShownOnce } from '../shown-once/shown-once.js';
import { Sure } from '../sure/sure.js';

const SCOPES = ['check', 'quotations', 'orders', 'prices'];

const Secret = ({ made, onDone }) => html`<${ShownOnce} title=${t('token.made', { label: made.label })} label=${t('token.secret')} secret=${made.secret} noted=${t('token.noted')} onDone=${onDone}>
  <p>${t('token.once')}</p><p class="quiet">${t('token.header')} <code>Authorization: Bearer …</code></p><//>`;

const Make = ({ onMade }) => {
  const typed = useSignal({ label: '', expires_on: '', scopes: ['check'] });
  const { send, problem, busy } = useSending();
  const write = (name) => (value) => (typed.value = { ...typed.value, [name]: value });
  const tick = (scope) => (on) => write('scopes')(SCOPES.filter((one) => (one === scope ? on : typed.value.scopes.includes(one))));
  const press = async (event) => {
    event.preventDefault();
    const { label, scopes, expires_on: end } = typed.value;
    const made = await send('/api/tokens', { label, scopes, ...(end ? { expires_on: end } : {}) });
    if (made) onMade(made);
  };
  return html`<form class="house__form" onSubmit=${press}>
    <${TextField} label=${t('token.label')} hint=${t('token.label-hint')} error=${errorOf(problem, 'label')} required maxlength="80" autocomplete="off" value=${typed.value.label} onWrite=${write('label')} />
    <fieldset class="token__scopes"><legend>${t('token.scopes')}</legend>
      ${SCOPES.map((scope) => html`<${TickField} key=${scope} label=${t(`token.scope.${scope}`)} value=${typed.value.scopes.includes(scope)} onWrite=${tick(scope)} />`)}
      ${errorOf(problem, 'scopes') && html`<small class="field__error">${errorOf(problem, 'scopes')}</small>`}</fieldset>
    <${TextField} label=${t('token.expires')} hint=${t('token.expires-hint')} error=${errorOf(problem, 'expires_on')} type="date" value=${typed.value.expires_on} onWrite=${write('expires_on')} />
    <button class="button button--heavy" disabled=${busy.value}>${t('token.make')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Revoke = ({ one, onDone }) => {
  const problem = useSignal(null);
  const press = () => remove(`/api/tokens/${one.id}`).then(onDone, (error) => (problem.value = problemOf(error)));
  return html`<${Sure} label=${t('token.revoke')} says=${t('token.revoke-means')} yes=${t('token.revoke-now')} no=${t('token.leave')} onPress=${press} />
    ${problem.value && html`<${Notice} problem=${problem.value} />`}`;
};

const stateText = (one) => {
  if (one.state === 'revoked') return t('token.revoked', { by: one.revoked_by_name, day: day(one.revoked_at) });
  if (one.state === 'expired') return t('token.expired', { day: lastDay(one.expires_at) });
  return one.expires_at ? t('token.until', { day: lastDay(one.expires_at) }) : t('token.live');
};

const Row = ({ one, onDone }) => html`<li class=${`token token--${one.state}`}>
  <div><b>${one.label}</b> ${!isDealer.value && html`<span>${one.dealer_name}</span>`}
    <p class="quiet">${t('token.made-by', { by: one.made_by_name, day: day(one.made_at) })} ${one.used_at ? t('token.used', { when: dayAndTime(one.used_at) }) : t('token.unused')}</p></div>
  <p class="token__for">${one.scopes.map((scope) => t(`token.scope-short.${scope}`)).join(' · ')}</p>
  <p class="token__state">${stateText(one)}</p>
  ${one.state === 'live' && html`<${Revoke} one=${one} onDone=${onDone} />`}</li>`;

export const Tokens = () => {
  const made = useSignal(null);
  const { body, problem, again } = useReading('/api/tokens');
  const take = (fresh) => ((made.value = fresh), again());
  return html`<section class="card" aria-labelledby="tokens-title"><h2 id="tokens-title">${t('token.title')}</h2><p class="quiet">${t(isDealer.value ? 'token.lead' : 'token.lead-manager')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${made.value?.secret && html`<${Secret} made=${made.value} onDone=${() => (made.value = null)} />`}
    ${body.value && (body.value.tokens.length ? html`<ul class="tokens">${body.value.tokens.map((one) => html`<${Row} key=${one.id} one=${one} onDone=${again} />`)}</ul>` : html`<p>${t('token.none')}</p>`)}
    ${may('make-tokens') && !made.value && html`<${Folded} label=${t('token.new')}>${(shut) => html`<${Make} onMade=${(fresh) => (shut(), take(fresh))} />`}<//>`}</section>`;
};
