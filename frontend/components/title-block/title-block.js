// The title block, as at the lower right of a drawing: number, revision, series, the stamp, the money, what it depends on
// and what is still open. Always in sight on the desk; on the phone a bar that opens it.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { choiceLabel, optionLabel } from '../../state/book.js';
import { away } from '../../api.js';
import { lookAtAll } from '../../state/edit.js';
import { donorKnown, gatesOf, isUntouched, openQuestions } from '../../state/shown.js';
import { Stamp, SmallStamp, otherVerdicts } from '../stamp/stamp.js';
import { Totals, totalText } from '../totals/totals.js';
import { Depends, countDepends } from '../reasons/reasons.js';
import { RefusalText, useReasons } from '../advice/advice.js';
import { Ready } from '../ready/ready.js';
import { Promised, PromiseMore } from '../promise/promise.js';
import { usePromise } from '../../state/promise.js';
import { abreast } from '../../state/narrow.js';
import { goToOption } from '../option-row/option-row.js';

const seriesOf = (job) => job.line.value.answers.series?.choice ?? job.document.value.donor.series;

const shells = (job) => job.document.value.lines.reduce((sum, line) => sum + line.quantity, 0);

const Cells = ({ job }) => {
  const { quotation, revision } = job.server.value;
  const series = seriesOf(job);
  return html`<dl class="cells">
    <div class="cell cell--number"><dt>${t('cell.number')}</dt><dd>${quotation?.number ?? t('cell.no-number')}</dd></div>
    <div class="cell"><dt>${t('cell.revision')}</dt><dd class="cell__large">${revision?.letter ?? '–'}</dd></div>
    <div class="cell cell--series"><dt>${t('cell.series')}</dt><dd class="cell__large">${series ? choiceLabel('series', series) : '–'}</dd></div>
    <div class="cell cell--wide"><dt>${t('cell.customer')}</dt><dd>${job.document.value.customer.name || '–'}</dd></div>
    <div class="cell"><dt>${t('cell.shells')}</dt><dd>${shells(job)}</dd></div>
  </dl>`;
};

const Refused = ({ job, answer }) => {
  const said = useReasons(job, null, job.fresh.value);
  return html`<div class="block__roll" tabindex="0" role="group" aria-labelledby="depends-title">
    <${RefusalText} said=${said} brief=${true} causes=${answer.causes} capped=${answer.capped} /></div>`;
};

/** So many have a line each on a desk; the rest is counted, and all are read in full in what unfolds. */
const BRIEF = 3;

/** One alone has the room to be read out. */
const Brief = ({ depends, down, count }) => html`<div class=${`depends__brief ${count === 1 ? 'is-single' : ''}`}>
  <${Depends} depends=${depends} down=${down} named=${count > 1} most=${BRIEF} /></div>`;

const moreText = (count) => (count > BRIEF ? t('depends.more', { count: count - BRIEF }) : t('depends.in-full'));

const Gates = ({ answer }) => {
  const count = countDepends(answer?.depends);
  if (!count) return html`<p class="quiet">${t('depends.none')}</p>`;
  const all = html`<${Depends} depends=${answer.depends} down=${answer.tools_down} />`;
  if (!abreast.value) return all;
  return html`<${Brief} depends=${answer.depends} down=${answer.tools_down} count=${count} />
    <details class="depends__all"><summary>${moreText(count)}</summary>
      <div class="depends__sheet" tabindex="0" role="group" aria-labelledby="depends-title">${all}</div></details>`;
};

const Open = ({ job, onGo }) => {
  const open = openQuestions(job.answer.value, job.line.value);
  if (!job.answer.value) return html`<p class="quiet">…</p>`;
  if (!open.length) return html`<p class="quiet">${t('open.none')}</p>`;
  return html`<ul class="open-list">${open.map((option) => html`<li key=${option}>
    <button class="plain" onClick=${() => onGo(option)}>${optionLabel(option)}</button></li>`)}</ul>`;
};

/** Where there are more than are in sight, the head says how many. */
const openTitle = (job) => {
  const count = openQuestions(job.answer.value, job.line.value).length;
  return count ? t('open.count', { count }) : t('open.title');
};

const OFFERED = { cant: 'advice.open', once: 'advice.open-once' };

/** The next step, beside every refusal. */
const Instead = ({ job, verdict, onAsk }) => {
  const ask = () => {
    job.jump = true;
    onAsk();
    lookAtAll(job);
  };
  return OFFERED[verdict] && html`<button class="plain block__instead" onClick=${ask}>${t(OFFERED[verdict])}</button>`;
};

/** The panel may hold more than is in sight, so its head says how much there is. */
const dependsTitle = (answer) => {
  if (answer?.verdict === 'cant') return t('depends.why-not');
  const count = countDepends(answer?.depends);
  return count ? t('depends.count', { count }) : t('depends.title');
};

const LineTotals = ({ job }) => {
  const { lines } = job.document.value;
  const totals = lines.length > 1 || job.document.value.extras.length ? job.revision.value?.totals : job.answer.value?.totals;
  const whole = totals && (lines.length > 1 || job.document.value.extras.length > 0);
  return html`<section class="block" aria-label=${t('totals.label')}>
    <h3>${t(whole ? (job.unsaved.value ? 'totals.label-saving' : 'totals.label-all') : 'totals.label')}</h3>
    <${Totals} totals=${totals} answer=${job.answer.value} /></section>`;
};

/** `matches`: what of the firm's stock could be what is written. */
export const TitleBlock = ({ job, matches }) => {
  const opened = useSignal(false);
  const answer = job.answer.value;
  const untouched = isUntouched(job.line.value);
  const dated = usePromise(untouched || !answer || answer.verdict === 'cant' ? null : job.question.value);
  const [figure, meaning] = totalText(answer?.totals, answer);
  const goTo = (option) => {
    opened.value = false;
    goToOption(option);
  };
  return html`
    <div class="foot-bar">
      <${SmallStamp} verdict=${answer?.verdict} nothing=${untouched} />
      <p class="foot-bar__total"><b>${figure}</b> <small>${meaning}</small></p>
      <button class="button" aria-expanded=${opened.value} aria-controls="title-block" onClick=${() => (opened.value = !opened.value)}>
        ${t(opened.value ? 'block.close' : 'block.open')}</button>
    </div>
    <aside id="title-block" aria-busy=${!job.fresh.value} class=${`title-block ${opened.value ? 'is-open' : ''} ${answer?.verdict === 'cant' ? 'is-refused' : ''}`} aria-label=${t('block.label')}>
      <${Cells} job=${job} />
      <section class="block block--stamp" aria-label=${t('verdict.label')}>
        <${Stamp} verdict=${answer?.verdict} gates=${gatesOf(answer)} down=${answer?.tools_down} known=${donorKnown(job)} soFar=${answer && !answer.complete} nothing=${untouched} />
        <p class="block__also">${away.value && !job.fresh.value ? t('verdict.unchecked') : otherVerdicts(answer, donorKnown(job))}</p>
      </section>
      <${LineTotals} job=${job} />
      <section class="block block--ready" aria-label=${t('ready.title')}><h3>${t('ready.title')}</h3><${Ready} answer=${untouched ? null : answer} shells=${job.line.value.quantity} />
        ${dated?.promise && html`<${Promised} dated=${dated} /><${PromiseMore} dated=${dated} stock=${matches?.found.find(({ fits, held, days }) => fits && !held && days > 0)} />`}</section>
      <section class="block block--depends"><div class="block__head"><h3 id="depends-title">${dependsTitle(answer)}</h3>
        <${Instead} job=${job} verdict=${answer?.verdict} onAsk=${() => (opened.value = false)} /></div>
        ${answer?.verdict === 'cant' ? html`<${Refused} job=${job} answer=${answer} />` : html`<${Gates} answer=${answer} />`}</section>
      <section class="block block--open"><h3 id="open-title">${openTitle(job)}</h3>
        <div class="block__roll" tabindex="0" role="group" aria-labelledby="open-title"><${Open} job=${job} onGo=${goTo} /></div></section>
    </aside>`;
};
