// The approvals that a revision's lines depend on: what was asked, what the manager said, and the asking itself.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { may } from '../../state/session.js';
import { useReading } from '../../state/reading.js';
import { useSending } from '../../state/sending.js';
import { day, dayAndTime } from '../../format.js';
import { TextArea } from '../field/field.js';
import { Notice } from '../notice/notice.js';

/** How a request stands, as one of: unasked, waiting, granted, refused, withdrawn, moot. */
export const Stage = ({ stage }) => html`<span class=${`stage stage--${stage}`}>${t(`approval.${stage}`)}</span>`;

/** Who asked, and all that was said since. */
export const Said = ({ approval }) => html`<ul class="approval__said">
  <li>${t('approval.asked-by', { at: dayAndTime(approval.asked_at), by: approval.asked_by_name })}${approval.note && html` <q>${approval.note}</q>`}</li>
  ${approval.acts.map((act, at) => html`<li key=${at}>${t(`approval.${act.stage}-by`, { day: day(act.day), by: act.by_name })}${act.reason && html` <q>${act.reason}</q>`}</li>`)}
</ul>`;

const Asking = ({ need, path, etag, onDone }) => {
  const note = useSignal('');
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    if (await send(path, { line: need.line, rule: need.rule, note: note.value }, { etag })) onDone();
  };
  return html`<form class="act" onSubmit=${press}>
    <${TextArea} label=${t('approval.note')} rows="2" maxlength="10000" value=${note.value} onWrite=${(text) => (note.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('approval.ask-now')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
  </form>`;
};

const stageOf = (need) => need.approval?.stage ?? 'unasked';
const canBeAsked = (need) => may('ask-approvals') && ['unasked', 'refused', 'withdrawn'].includes(stageOf(need));

const Need = ({ need, path, etag, unsaved, onDone }) => {
  const open = useSignal(false);
  const done = () => {
    open.value = false;
    onDone();
  };
  return html`<li class=${`approval approval--${stageOf(need)}`}>
    <p class="approval__head"><b>${need.rule}</b> <span class="approval__line">${t('approval.line', { line: need.line })}</span> <${Stage} stage=${stageOf(need)} /></p>
    <p>${say(need.reason)}</p>
    ${need.approval && html`<${Said} approval=${need.approval} />`}
    ${canBeAsked(need) && html`<button class="button" aria-expanded=${open.value} disabled=${unsaved} aria-label=${t('approval.ask-for', { rule: need.rule, line: need.line })}
      onClick=${() => (open.value = !open.value)}>${t(need.approval ? 'approval.ask-again' : 'approval.ask')}</button>`}
    ${open.value && html`<${Asking} need=${need} path=${path} etag=${etag} onDone=${done} />`}
  </li>`;
};

/** `etag`: of the revision as it was read; `unsaved`: the draft on the screen is not the one that is kept. */
export const Approvals = ({ number, letter, etag, unsaved = false, history }) => {
  const path = `/api/quotations/${number}/revisions/${letter}/approvals`;
  const { body: held, again } = useReading(path, `${etag} ${history?.length}`);
  if (!held.value?.approvals.length) return null;
  const { approvals, open } = held.value;
  return html`<section class="card approvals" aria-labelledby="approvals-title"><h2 id="approvals-title">${t('approval.title')}</h2>
    <p class="quiet" role="status">${open ? t('approval.open', { open, count: approvals.length }) : t('approval.all-given')}</p>
    <ul>${approvals.map((need) => html`<${Need} key=${`${need.line} ${need.rule}`} need=${need} path=${path} etag=${etag} unsaved=${unsaved} onDone=${again} />`)}</ul>
    <p class="quiet">${t('approval.bound')}</p></section>`;
};

const needsAny = (job) => Object.values(job.answers.value).some((held) => held?.answer?.depends?.approvals?.length);

/** On the form, once there is a quotation and an answer that names an approval. */
export const JobApprovals = ({ job }) => {
  const { quotation, revision, revisionEtag } = job.server.value;
  if (!quotation || !needsAny(job)) return null;
  return html`<${Approvals} number=${quotation.number} letter=${revision.letter} etag=${revisionEtag} unsaved=${job.unsaved.value} />`;
};
