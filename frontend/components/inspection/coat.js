// Primer is temporary: the day on which the shell was primed, by when it has to be overcoated, and who takes it later.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { may, today } from '../../state/session.js';
import { day } from '../../format.js';
import { errorOf, useSending } from '../../state/sending.js';
import { TextArea, TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

const Primed = ({ one, onShell }) => {
  const on = useSignal(today());
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/shells/${one.shell}/inspection/primings`, { day: on.value });
    if (after) onShell(after);
  };
  return html`<form class="floor-form" onSubmit=${press}><${TextField} label=${t(one.priming ? 'inspect.primed-anew' : 'inspect.primed-on')} type="date" required value=${on.value} error=${errorOf(problem, 'day')} onWrite=${(text) => (on.value = text)} />
    <button class="button" disabled=${busy.value}>${t('inspect.write-day')}</button>${problem.value && !problem.value.errors?.day && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Acknowledged = ({ one, onShell }) => {
  const [who, words] = [useSignal(''), useSignal('')];
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/shells/${one.shell}/inspection/acknowledgements`, { said_by: who.value, words: words.value });
    if (after) onShell(after);
  };
  return html`<form class="floor-form" onSubmit=${press}><${TextField} label=${t('inspect.said-by')} required autocomplete="off" value=${who.value} onWrite=${(text) => (who.value = text)} />
    <${TextArea} label=${t('inspect.words')} hint=${t('inspect.words-hint')} required value=${words.value} onWrite=${(text) => (words.value = text)} />
    <button class="button" disabled=${busy.value}>${t('inspect.acknowledge')}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const By = ({ overcoat }) => html`<p class=${overcoat.stops ? 'inspect-stop' : 'inspect-by'}>${t(overcoat.past ? 'inspect.overcoat-past' : 'inspect.overcoat-by', { day: day(overcoat.by) })}</p>
  ${overcoat.words && html`<p>${t('inspect.taken-late', { who: overcoat.said_by })} <q>${overcoat.words}</q></p>`}`;

export const Coat = ({ one, onShell }) => one.coat && html`<section class="card" aria-labelledby="inspect-coat"><h2 id="inspect-coat">${t('inspect.coat')}</h2><p><b>${say(one.coat)}</b></p>
  ${one.priming && html`<p>${t('inspect.was-primed', { day: day(one.priming.day), by: one.priming.by_name })}</p>`}
  ${one.overcoat && html`<${By} overcoat=${one.overcoat} />`}
  ${!one.painted && may('take-readings') && html`<${Primed} key=${one.priming?.day ?? ''} one=${one} onShell=${onShell} />${one.overcoat?.stops && html`<${Acknowledged} one=${one} onShell=${onShell} />`}`}</section>`;
