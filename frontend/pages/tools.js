// The tools and how they stand: to read for all of the workshop, to switch for the lead and the manager.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { may, sight } from '../state/session.js';
import { get, put, Refusal } from '../api.js';
import { day, dayAndTime } from '../format.js';
import { TextField, SelectField } from '../components/field/field.js';
import { Notice } from '../components/notice/notice.js';

const states = () => ['ok', 'down', ...(may('lose-tools') ? ['lost'] : [])].map((state) => [state, t(`tool.${state}`)]);

const Switch = ({ tool, etag, onDone }) => {
  const state = useSignal(tool.state);
  const until = useSignal(tool.until ?? '');
  const note = useSignal('');
  const problem = useSignal(null);
  const press = async (event) => {
    event.preventDefault();
    const entry = { state: state.value, note: note.value, ...(state.value === 'down' && until.value ? { until: until.value } : {}) };
    try {
      await put(`/api/tools/${tool.id}`, entry, { etag });
      onDone();
    } catch (error) {
      problem.value = error instanceof Refusal ? error.problem : { title: t('away.title'), detail: t('away.later') };
      if (error.status === 412) onDone(false);
    }
  };
  return html`<form class="tool__switch" onSubmit=${press}>
    <${SelectField} label=${t('tool.state')} value=${state.value} options=${states()} onWrite=${(value) => (state.value = value)} />
    <${TextField} label=${t('tool.until')} type="date" value=${until.value} disabled=${state.value !== 'down'} onWrite=${(value) => (until.value = value)} />
    <${TextField} label=${t('tool.note')} value=${note.value} onWrite=${(value) => (note.value = value)} />
    <button class="button button--heavy">${t('tool.switch')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
  </form>`;
};

const mayTouch = (tool) => may('switch-tools') && (tool.state !== 'lost' || may('lose-tools'));

const Tool = ({ tool, etag, opened, onDone }) => {
  const open = opened.value === tool.id;
  return html`<li class=${`tool tool--${tool.state}`}>
    <div class="tool__row"><h2>${say(tool.label)}</h2>
      <span class=${`tool__state tool__state--${tool.state}`}>${t(`tool.${tool.state}`)}${tool.until ? ` ${t('tool.back', { day: day(tool.until) })}` : ''}</span>
      <span class="quiet tool__since">${tool.by ? t('tool.since', { at: dayAndTime(tool.since), by: tool.by_name ?? tool.by }) : ''}${tool.note ? ` · ${tool.note}` : ''}</span>
      ${mayTouch(tool) && html`<button class="button" aria-expanded=${open} aria-label=${t('tool.change-of', { tool: say(tool.label) })}
        onClick=${() => (opened.value = open ? null : tool.id)}>${t('tool.change')}</button>`}</div>
    ${open && html`<${Switch} tool=${tool} etag=${etag} onDone=${onDone} />`}
  </li>`;
};

export const Tools = () => {
  const held = useSignal(null);
  const opened = useSignal(null);
  const problem = useSignal(null);
  const fetchTools = () => get('/api/tools').then(({ body, etag }) => (held.value = { ...body, etag }), (error) => (problem.value = error.problem ?? { title: t('away.title') }));
  useEffect(() => void fetchTools(), []);
  const done = (finished = true) => {
    if (finished) opened.value = null;
    sight.value += 1;
    fetchTools();
  };
  return html`<div class="work"><h1>${t('tools.title')}</h1><p class="quiet">${t('tools.lead')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${held.value && html`<ul class="tools">${held.value.tools.map((tool) => html`<${Tool} key=${tool.id} tool=${tool} etag=${held.value.etag} opened=${opened} onDone=${done} />`)}</ul>`}</div>`;
};
