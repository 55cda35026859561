// Reasons in the reader's words: each with the rule's own id. A cause of several rules is read as one, joined.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { reasonOf } from '../../state/book.js';

export const Reason = ({ id }) => html`<span class="reason"><b class="reason__id">${id}</b> ${reasonOf(id)}</span>`;

const Cause = ({ ids }) => html`<li class="cause">
  ${ids.map((id, at) => html`${at > 0 && html`<i class="cause__and">${t('cause.and')}</i>`}<${Reason} key=${id} id=${id} />`)}
</li>`;

export const Causes = ({ causes, capped }) => html`<ul class="causes">
  ${causes.map((ids) => html`<${Cause} key=${ids.join()} ids=${ids} />`)}
  ${capped && html`<li key="more">${t('cause.more')}</li>`}
</ul>`;

const KINDS = ['parts', 'approvals', 'cautions', 'holds', 'tools'];
const KIND_OF = { parts: 'part', approvals: 'approval', cautions: 'caution', holds: 'hold', tools: 'tool' };

export const anyDepends = (depends) => KINDS.some((kind) => depends?.[kind]?.length);

export const Depends = ({ depends }) => html`<ul class="depends">
  ${KINDS.flatMap((kind) => (depends?.[kind] ?? []).map((id) => html`<li key=${`${kind}${id}`} class=${`depends__row depends__row--${KIND_OF[kind]}`}>
    <span class="depends__kind">${t(`depends.${KIND_OF[kind]}`)}</span> <${Reason} id=${id} /></li>`))}
</ul>`;
