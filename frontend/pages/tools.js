// The tools and how they stand: to read for all of the workshop, to switch for the lead and the manager.
import { useEffect, useRef } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { may, sight } from '../state/session.js';
import { reasonOf, titleOf } from '../state/book.js';
import { get } from '../api.js';
import { day, dayAndTime } from '../format.js';
import { Notice } from '../components/notice/notice.js';
import { SafetyLink } from '../components/safety/safety-link.js';
import { ToolSwitch } from '../components/tool-switch/tool-switch.js';

const mayTouch = (tool) => may('switch-tools') && (tool.state !== 'lost' || may('lose-tools'));

const backText = (tool) => (tool.state === 'down' ? (tool.until ? t('tool.back', { day: day(tool.until) }) : t('tool.back-unknown')) : '');

/** What the book says of a lost tool, in the reader's language. */
const effectText = ({ state, effect, part, rule }) =>
  state === 'lost' ? t(`tool.effect.${effect}`, { part: part && `${part}, ${titleOf(part)}`, rule: rule && `${rule}: ${reasonOf(rule)}` }) : '';

/** What somebody wrote stays in his language, and is shown as his words. */
const Since = ({ tool }) => html`<span class="quiet tool__since">${tool.by ? t('tool.since', { at: dayAndTime(tool.since), by: tool.by_name ?? tool.by }) : ''}
  ${effectText(tool) && html`<span class="tool__effect">${effectText(tool)}</span>`}
  ${tool.note && html`<q class="tool__note">${tool.note}</q>`}</span>`;

const Tool = ({ tool, etag, opened, onDone }) => {
  const open = opened.value === tool.id;
  const button = useRef(null);
  const done = (finished) => {
    onDone(finished);
    if (finished) button.current?.focus();
  };
  return html`<li class=${`tool tool--${tool.state}`}>
    <div class="tool__row"><h2>${say(tool.label)}</h2>
      <span class=${`tool__state tool__state--${tool.state}`}>${t(`tool.${tool.state}`)} ${backText(tool)}</span><${Since} tool=${tool} />
      ${mayTouch(tool) && html`<button ref=${button} class="button" aria-expanded=${open} aria-label=${open ? undefined : t('tool.change-of', { tool: say(tool.label) })}
        onClick=${() => (opened.value = open ? null : tool.id)}>${t(open ? 'tool.leave' : 'tool.change')}</button>`}</div>
    ${open && html`<${ToolSwitch} tool=${tool} etag=${etag} onDone=${done} />`}
  </li>`;
};

export const Tools = () => {
  const held = useSignal(null);
  const opened = useSignal(null);
  const problem = useSignal(null);
  const fetchTools = () => get('/api/tools').then(({ body, etag }) => (held.value = { ...body, etag }), (error) => (problem.value = error.problem ?? { title: t('away.title') }));
  useEffect(() => void fetchTools(), []);
  const done = (finished) => {
    if (finished) opened.value = null;
    sight.value += 1;
    fetchTools();
  };
  return html`<div class="work"><h1>${t('tools.title')}</h1><p class="quiet">${t('tools.lead')}</p>
    ${may('see-safety') && html`<${SafetyLink} />`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${held.value && html`<ul class="tools">${held.value.tools.map((tool) => html`<${Tool} key=${tool.id} tool=${tool} etag=${held.value.etag} opened=${opened} onDone=${done} />`)}</ul>`}</div>`;
};
