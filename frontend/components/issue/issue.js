// What must be true before a quotation goes out, each with how to mend it, and the button that issues.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { optionLabel } from '../../state/book.js';
import { post, freshKey, Refusal } from '../../api.js';
import { save, canBeFiled } from '../../state/saving.js';
import { reread } from '../../state/jobs.js';
import { openQuestions } from '../../state/shown.js';
import { goToOption } from '../option-row/option-row.js';
import { announceIssued } from '../../state/issued.js';
import { YesStands, replacing } from '../earlier-yes/earlier-yes.js';
import { Notice } from '../notice/notice.js';

/** The field may lie in a fold. */
const goToField = (name) => {
  const field = document.querySelector(`[name="${name}"]`);
  field?.closest('details')?.setAttribute('open', '');
  field?.focus();
};

const reachable = ({ customer, dealer }) => Boolean(dealer || [customer.telephone, customer.email, customer.address].some((text) => text.trim()));

const hasAddress = ({ customer, dealer }) => Boolean(dealer || customer.address.trim());
const emailReads = ({ customer }) => !customer.email.trim() || /^[^@\s]+@[^@\s]+\.[^@\s.]+$/.test(customer.email.trim());

/** [{id, done, text, option?, field?, advice?}] in the order in which one mends them; `advice` hinders nothing. */
const checksOf = (job) => {
  const answer = job.answer.value;
  const open = openQuestions(answer, job.line.value);
  const unpriced = answer?.price?.unpriced ?? [];
  return [
    { id: 'name', done: canBeFiled(job.document.value), text: t('check.name'), field: 'customer.name' },
    { id: 'contact', done: reachable(job.document.value), text: t('check.contact'), field: 'customer.telephone', advice: true },
    ...(emailReads(job.document.value) ? [] : [{ id: 'email', done: false, text: t('check.email'), field: 'customer.email', advice: true }]),
    { id: 'address', done: hasAddress(job.document.value), text: t('check.address'), field: 'customer.address', advice: true },
    ...(job.wrong.value.size ? [{ id: 'numbers', done: false, text: t('check.numbers') }] : []),
    { id: 'buildable', done: answer !== null && answer.verdict !== 'cant', text: t(answer?.verdict === 'once' ? 'check.buildable-once' : 'check.buildable') },
    { id: 'complete', done: Boolean(answer?.complete), option: open[0],
      text: open.length ? t('check.open', { count: open.length, first: optionLabel(open[0]) }) : t('check.complete') },
    { id: 'priced', done: answer !== null && !unpriced.length,
      text: unpriced.length ? t('check.unpriced', { lines: unpriced.map((row) => say(row.label) || row.line).join(', ') }) : t('check.priced') },
    { id: 'saved', done: !job.unsaved.value, text: t('check.saved') },
  ];
};

const Check = ({ check }) => html`<li class=${`check ${check.done ? 'is-done' : ''}`}>
  <span class="check__box" aria-hidden="true">${check.done ? '✓' : ''}</span>
  <span>${check.text} ${!check.done && check.advice && html`<small>${t('check.advice')}</small> `}<span class="unseen">${t(check.done ? 'check.yes' : 'check.no')}</span></span>
  ${!check.done && (check.option || check.field) && html`<button class="plain" onClick=${() => (check.option ? goToOption(check.option) : goToField(check.field))}>${t('check.go')}</button>`}
</li>`;

const issueNow = async (job) => {
  if (!(await save(job))) return { title: t('check.not-saved') };
  const { quotation, revision, revisionEtag } = job.server.value;
  job.issueKey ??= freshKey();
  try {
    await post(`/api/quotations/${quotation.number}/revisions/${revision.letter}/issue`, replacing(job), { etag: revisionEtag, key: job.issueKey });
    return null;
  } catch (error) {
    if (!(error instanceof Refusal)) return { title: t('away.title'), detail: t('issue.away') };
    job.issueKey = null;
    return error.problem;
  }
};

export const Issue = ({ job, onIssued }) => {
  const problem = useSignal(null);
  const busy = useSignal(false);
  const checks = checksOf(job);
  const ready = checks.every((check) => check.done || check.advice) && job.fresh.value;
  const press = async () => {
    busy.value = true;
    problem.value = await issueNow(job);
    busy.value = false;
    if (problem.value) return;
    const { quotation, revision } = job.server.value;
    announceIssued(quotation.number, revision.letter);
    onIssued(await reread(quotation.number));
  };
  return html`<section class="card issue" aria-labelledby="issue-title">
    <h2 id="issue-title">${t('issue.title')}</h2>
    <ul class="checks">${checks.map((check) => html`<${Check} key=${check.id} check=${check} />`)}</ul>
    <p class="quiet">${t('issue.gates')}</p>
    <${YesStands} job=${job} />
    <button class="button button--heavy button--large" disabled=${!ready || busy.value} onClick=${press}>${t(busy.value ? 'issue.busy' : 'issue.press')}</button>
    <p class="quiet">${t('issue.freezes')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
  </section>`;
};
