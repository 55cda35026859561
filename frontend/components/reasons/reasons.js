// Reasons in the reader's words: each with the rule's own number, a tool with its name. A cause of several rules is read as
// one, joined.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { nameOf, reasonOf, titleOf } from '../../state/book.js';
import { day } from '../../format.js';

const Id = ({ id }) => html`<b class="reason__id">${nameOf(id)}</b>`;

/** Of the rules and tools that a sentence names: [{id}]. */
export const Ids = ({ rules }) => html`${rules.map(({ id }) => html`<${Id} key=${id} id=${id} /> `)}`;

export const Reason = ({ id }) => html`<span class="reason"><${Id} id=${id} /> ${reasonOf(id)}</span>`;

const Cause = ({ ids }) => html`<li class="cause">
  ${ids.map((id, at) => html`${at > 0 && html`<i class="cause__and">${t('cause.and')}</i>`}<${Reason} key=${id} id=${id} />`)}
</li>`;

export const Causes = ({ causes, capped }) => html`<ul class="causes">
  ${causes.map((ids) => html`<${Cause} key=${ids.join()} ids=${ids} />`)}
  ${capped && html`<li key="more">${t('cause.more')}</li>`}
</ul>`;

// What holds the shell up comes first, what is only said comes last.
const KINDS = ['parts', 'approvals', 'tools', 'holds', 'cautions'];
const KIND_OF = { parts: 'part', approvals: 'approval', cautions: 'caution', holds: 'hold', tools: 'tool' };

export const countDepends = (depends) => KINDS.reduce((sum, kind) => sum + (depends?.[kind]?.length ?? 0), 0);
export const anyDepends = (depends) => countDepends(depends) > 0;

/** A tool that is down, and when it is back: `down` as the answer has it, [{tool, until}]. What was issued says no day. */
export const backText = (id, down) => {
  const until = down.find(({ tool }) => tool === id)?.until;
  return until ? t('tool.back', { day: day(until) }) : t('tool.back-unknown');
};
export const toolText = (id, down) => (down ? `${nameOf(id)}, ${backText(id, down)}` : nameOf(id));

const Tool = ({ id, down }) => html`<span class="reason"><${Id} id=${id} /> ${down ? backText(id, down) : ''}</span>`;

const Named = ({ id }) => html`<span class="reason"><${Id} id=${id} /> ${titleOf(id) || reasonOf(id)}</span>`;

const rowsOf = (depends) => KINDS.flatMap((kind) => (depends?.[kind] ?? []).map((id) => [kind, id]));

/** Several parts may have the same sentence: each says which it is. */
const Part = ({ id }) => html`<span class="reason"><${Id} id=${id} /> ${[titleOf(id), reasonOf(id)].filter(Boolean).join(': ')}</span>`;

const What = ({ kind, id, down, named }) => {
  if (kind === 'tools') return html`<${Tool} id=${id} down=${down} />`;
  if (kind === 'parts' && !named) return html`<${Part} id=${id} />`;
  return named ? html`<${Named} id=${id} />` : html`<${Reason} id=${id} />`;
};

/** `named`: each by its name rather than in its sentence; `most`: no more than so many. */
export const Depends = ({ depends, down, named = false, most = Infinity }) => html`<ul class="depends">
  ${rowsOf(depends).slice(0, most).map(([kind, id]) => html`<li key=${`${kind}${id}`} class=${`depends__row depends__row--${KIND_OF[kind]}`}>
    <span class="depends__kind">${t(`depends.${KIND_OF[kind]}`)}</span> <${What} kind=${kind} id=${id} down=${down} named=${named} /></li>`)}
</ul>`;
