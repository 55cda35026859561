// The calendar in one's own calendar program: addresses made here and shown once, listed with their last use, revoked.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { person } from '../../state/session.js';
import { remove } from '../../api.js';
import { day, dayAndTime } from '../../format.js';
import { errorOf, problemOf, useSending } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { TextField } from '../field/field.js';
import { Folded } from '../folded/folded.js';
import { Notice } from '../notice/notice.js';
import { ShownOnce } from '../shown-once/shown-once.js';
import { Sure } from '../sure/sure.js';

const Shown = ({ made, onDone }) => html`<${ShownOnce} title=${t('feed.made', { label: made.label })} label=${t('feed.address')} secret=${made.address} noted=${t('feed.noted')} onDone=${onDone}>
  <p>${t('feed.once')}</p><p class="quiet">${t('feed.how')}</p><//>`;

const Make = ({ onMade }) => {
  const label = useSignal('');
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const made = await send('/api/calendar-feeds', { label: label.value });
    if (made) onMade(made);
  };
  return html`<form class="house__form" onSubmit=${press}>
    <${TextField} label=${t('feed.label')} hint=${t('feed.label-hint')} error=${errorOf(problem, 'label')} required maxlength="80" autocomplete="off" value=${label.value} onWrite=${(text) => (label.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('feed.make')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Revoke = ({ one, onDone }) => {
  const problem = useSignal(null);
  const press = () => remove(`/api/calendar-feeds/${one.id}`).then(onDone, (error) => (problem.value = problemOf(error)));
  return html`<${Sure} label=${t('feed.revoke')} says=${t('feed.revoke-means')} yes=${t('feed.revoke-now')} no=${t('feed.leave')} onPress=${press} />
    ${problem.value && html`<${Notice} problem=${problem.value} />`}`;
};

const Row = ({ one, onDone }) => html`<li class=${`token feed token--${one.live ? 'live' : 'revoked'}`}>
  <div><b>${one.label}</b><p class="quiet">${t('feed.made-by', { by: one.made_by_name, day: day(one.made_at) })}</p></div>
  <p>${one.used_at ? t('feed.used', { when: dayAndTime(one.used_at) }) : t('feed.unused')}</p>
  ${one.live ? html`<${Revoke} one=${one} onDone=${onDone} />` : html`<p>${t('feed.revoked', { by: one.revoked_by_name, day: day(one.revoked_at) })}</p>`}</li>`;

export const Feeds = () => {
  const made = useSignal(null);
  const { body, problem, again } = useReading('/api/calendar-feeds');
  const take = (fresh) => ((made.value = fresh), again());
  return html`<section class="card" aria-labelledby="feeds-title"><h2 id="feeds-title">${t('feed.title')}</h2><p class="quiet">${t(person.value?.role === 'manager' ? 'feed.lead-manager' : 'feed.lead')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${made.value?.address && html`<${Shown} made=${made.value} onDone=${() => (made.value = null)} />`}
    ${body.value && (body.value.feeds.length ? html`<ul class="tokens">${body.value.feeds.map((one) => html`<${Row} key=${one.id} one=${one} onDone=${again} />`)}</ul>` : html`<p>${t('feed.none')}</p>`)}
    ${!made.value && html`<${Folded} label=${t('feed.new')}>${(shut) => html`<${Make} onMade=${(fresh) => (shut(), take(fresh))} />`}<//>`}</section>`;
};
