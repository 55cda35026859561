// The list of approvals: what waits first and of that the oldest. Everybody sees what was asked; the manager answers here.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { may } from '../state/session.js';
import { usePages } from '../state/pages.js';
import { money } from '../format.js';
import { dealerName } from '../state/dealers.js';
import { useSending } from '../state/sending.js';
import { TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { More } from '../components/more/more.js';
import { Notice } from '../components/notice/notice.js';
import { Standing } from '../components/standing/standing.js';
import { WaitingChanges } from '../components/waiting-changes/waiting-changes.js';
import { WaitingConcessions } from '../components/waiting-concessions/waiting-concessions.js';
import { Said, Stage } from '../components/approvals/approvals.js';

const STAGES = ['waiting', 'granted', 'refused', 'withdrawn'];

const totalOf = ({ total }) => total && `${total.with_tax.map((amount) => money(amount, total.currency)).join(' / ')} ${t('totals.with-tax')}`;

const inWords = (rows) => rows.map((row) => `${say(row.label)}: ${say(row.choice_label)}`).join(' · ');

const Shell = ({ rows }) => {
  const unusual = rows.filter((row) => row.unusual);
  return html`<p class="weighed__shell">${rows.filter((row) => ['body', 'series', 'market', 'steering'].includes(row.option)).map((row) => say(row.choice_label)).join(' · ')}</p>
    <p>${unusual.length ? html`<b>${t('approval.unusual')}</b> ${inWords(unusual)}` : t('approval.all-usual')}</p>
    <details class="folded"><summary>${t('approval.whole')}</summary>
      <table class="ruled"><tbody>${rows.map((row) => html`<tr key=${row.option} class=${row.unusual ? 'row--chosen' : ''}><th scope="row">${say(row.label)}</th><td>${say(row.choice_label)}</td>
        <td class="quiet">${row.bound ? t('approval.is-bound') : ''}</td></tr>`)}</tbody></table></details>`;
};

const useActs = (id, onDone) => {
  const { send, problem, busy } = useSending();
  const act = async (deed, body) => (await send(`/api/approvals/${id}/${deed}`, body)) && onDone();
  return { act, problem, busy };
};

const Answer = ({ weighed, onDone }) => {
  const reason = useSignal('');
  const { act, problem, busy } = useActs(weighed.approval.id, onDone);
  const press = (event) => {
    event.preventDefault();
    act('answer', { answer: event.submitter.value, reason: reason.value });
  };
  return html`<form class="weighed__answer" onSubmit=${press}>
    <${TextField} label=${t('approval.reason')} hint=${t('approval.reason-hint')} required maxlength="10000" autocomplete="off" value=${reason.value} onWrite=${(text) => (reason.value = text)} />
    <div class="acts"><button class="button button--heavy" value="granted" disabled=${busy.value}>${t('approval.grant')}</button>
      <button class="button" value="refused" disabled=${busy.value}>${t('approval.refuse')}</button></div>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
  </form>`;
};

const TakeBack = ({ weighed, onDone }) => {
  const [open, reason] = [useSignal(false), useSignal('')];
  const { act, problem, busy } = useActs(weighed.approval.id, onDone);
  const press = (event) => {
    event.preventDefault();
    act('withdraw', { reason: reason.value });
  };
  return html`<button class="plain" aria-expanded=${open.value} onClick=${() => (open.value = !open.value)}>${t(weighed.stage === 'granted' ? 'approval.take-back' : 'approval.withdraw')}</button>
    ${open.value && html`<form class="weighed__answer" onSubmit=${press}>
      <${TextField} label=${t('approval.why')} required maxlength="10000" autocomplete="off" value=${reason.value} onWrite=${(text) => (reason.value = text)} />
      <button class="button" disabled=${busy.value}>${t('approval.withdraw-now')}</button>
      ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`}`;
};

/** Whoever answers has no need to withdraw what waits; a yes only he takes back. */
const mayTakeBack = ({ stage }) => {
  if (stage === 'granted') return may('answer-approvals');
  return may('ask-approvals') && (stage === 'moot' || (stage === 'waiting' && !may('answer-approvals')));
};

const Weighed = ({ weighed, onDone }) => {
  const { approval } = weighed;
  return html`<li class=${`card weighed weighed--${weighed.stage}`}>
    <div class="weighed__head"><h2><${Link} to=${`/quotations/${approval.number}`}>${approval.number} ${weighed.letter}<//> <small>${t('approval.line', { line: weighed.line })}</small></h2>
      <span>${weighed.customer}${weighed.dealer && html` <small class="quiet">${dealerName(weighed.dealer)}</small>`}</span>
      <${Standing} state=${weighed.state} /><span class="weighed__total">${totalOf(weighed)}</span><${Stage} stage=${weighed.stage} /></div>
    <p class="weighed__rule"><b>${approval.rule}</b> ${say(weighed.reason)}${weighed.cautions && html` <small>${t('approval.cautions')}</small>`}</p>
    <${Shell} rows=${weighed.specification} />
    <${Said} approval=${approval} />
    ${weighed.stage === 'waiting' && may('answer-approvals') && html`<${Answer} weighed=${weighed} onDone=${onDone} />`}
    ${mayTakeBack(weighed) && html`<${TakeBack} weighed=${weighed} onDone=${onDone} />`}
  </li>`;
};

export const ApprovalsPage = () => {
  const stage = useSignal('');
  const pages = usePages(`/api/approvals${stage.value ? `?stage=${stage.value}` : ''}`, 'approvals', (one) => one.approval.id);
  return html`<div class="work"><h1>${t('approvals.title')}</h1><p class="quiet">${t(may('answer-approvals') ? 'approvals.lead-answer' : 'approvals.lead')}</p>
    ${may('see-changes') && html`<${WaitingChanges} />`}
    ${may('answer-concessions') && html`<${WaitingConcessions} />`}
    <div class="state-choice" role="group" aria-label=${t('approvals.stage')}>
      ${['', ...STAGES].map((one) => html`<button key=${one} class="plain" aria-pressed=${stage.value === one} onClick=${() => (stage.value = one)}>${t(one ? `approval.${one}` : 'work.all')}</button>`)}</div>
    ${pages.problem && html`<${Notice} problem=${pages.problem} />`}
    ${pages.rows && (pages.rows.length
      ? html`<ul class="weighed-list" id="approvals-list">${pages.rows.map((one) => html`<${Weighed} key=${one.approval.id} weighed=${one} onDone=${pages.again} />`)}</ul>`
      : html`<p class="quiet">${t('approvals.none')}</p>`)}
    <${More} pages=${pages} list="approvals-list" of=${t('approvals.title')} /></div>`;
};
