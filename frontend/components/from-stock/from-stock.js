// Shells of the firm's stock that could be what is written: what differs, what is changed on them, the days that they save.
// One deed takes one to the quotation, for which it is held a while.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { choiceLabel, optionLabel } from '../../state/book.js';
import { may } from '../../state/session.js';
import { day, dayAndTime, difference } from '../../format.js';
import { remove } from '../../api.js';
import { takeFromStock } from '../../state/stock.js';
import { useReading } from '../../state/reading.js';
import { problemOf, useSending } from '../../state/sending.js';
import { Notice } from '../notice/notice.js';

export const daysText = ({ days }) => {
  if (days === null || days === 0) return t('from-stock.no-days');
  const name = days > 0 ? 'from-stock.sooner' : 'from-stock.later';
  return Math.abs(days) === 1 ? t(`${name}-one`) : t(name, { days: Math.abs(days) });
};

export const standsText = ({ finished, stage }) => (finished ? t('from-stock.finished') : t('from-stock.at', { stage: say(stage) }));

const Difference = ({ one }) => html`<tr class=${`from-stock__${one.taken}`}><th scope="row">${optionLabel(one.option)}</th><td>${choiceLabel(one.option, one.has)}</td>
  <td>${choiceLabel(one.option, one.wanted)}</td><td>${t(`from-stock.taken.${one.taken}`)}</td></tr>`;

export const Differences = ({ match }) => html`<table class="from-stock__differences"><caption>${t('from-stock.differences')}</caption>
  <thead><tr><th scope="col">${t('from-stock.feature')}</th><th scope="col">${t('from-stock.has')}</th><th scope="col">${t('from-stock.wanted')}</th><th scope="col">${t('from-stock.how')}</th></tr></thead>
  <tbody>${match.differences.map((one) => html`<${Difference} key=${one.option} one=${one} />`)}</tbody></table>`;

export const Work = ({ match }) => {
  const { work, undone, work_days: days } = match;
  if (!work.length && !undone.length) return null;
  const listOf = (these, text) => these.length > 0 && html`<p>${t(text)}</p><ul>${these.map((one, at) => html`<li key=${at}>${say(one.text)} <small>${say(one.stage)}</small></li>`)}</ul>`;
  return html`<details class="from-stock__work"><summary>${t(days ? 'from-stock.work-days' : 'from-stock.work', { count: work.length + undone.length, days })}</summary>${listOf(work, 'from-stock.to-do')}${listOf(undone, 'from-stock.undone')}</details>`;
};

const Price = ({ match }) => match.price !== null && match.price !== 0 && html`<p>${t('from-stock.price', { price: difference(match.price, match.currency) })}</p>`;

const fitText = (match) => {
  if (!match.differences.length) return t('from-stock.same');
  return t(match.fits ? 'from-stock.fits' : 'from-stock.near', { count: match.differences.filter(({ taken }) => taken === 'no').length });
};

const Match = ({ match, held, busy, onTake }) => html`<li class=${`from-stock__shell ${match.fits ? 'is-fitting' : ''}`}>
  <p class="from-stock__head"><b>${match.name}</b> <span>${standsText(match)}</span> <span class="from-stock__days">${daysText(match)}</span></p>
  <p>${fitText(match)} ${t('from-stock.ready', { from: day(match.ready), to: day(match.ready_by) })}</p>
  ${match.second && html`<p><b>${t('from-stock.second')}</b> ${match.why}</p>`}
  ${match.differences.length > 0 && html`<${Differences} match=${match} />`}<${Work} match=${match} /><${Price} match=${match} />
  ${match.held && !held ? html`<p class="quiet">${t('from-stock.held-by-another', { until: dayAndTime(match.held) })}</p>` : !held && may('hold-stock') && html`<button class="button" disabled=${busy} onClick=${() => onTake(match.id)} aria-label=${t('from-stock.take-of', { shell: match.name })}>${t('from-stock.take')}</button>`}
</li>`;

const Held = ({ one, onTold }) => {
  const { send, problem, busy } = useSending();
  const at = `/api/stock-shells/${one.id}/reservation`;
  const extend = async () => {
    const told = await send(at);
    if (told) onTold(told);
  };
  const letGo = () => remove(at).then(({ body }) => onTold(body), (error) => (problem.value = problemOf(error)));
  return html`<li class="from-stock__held"><p role="status"><b>${t('from-stock.held', { shell: one.name, until: dayAndTime(one.until) })}</b>
    ${' '}${one.line === null ? t('from-stock.no-line') : t('from-stock.line', { line: one.line })}</p>
    <div class="acts">${!one.extended && html`<button class="button" disabled=${busy.value} onClick=${extend}>${t('from-stock.extend')}</button>`}
      <button class="plain" onClick=${letGo}>${t('from-stock.let-go')}</button></div>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</li>`;
};

/** What is held for a quotation; `turn`: whatever it is, another one asks again. */
export const HeldForQuotation = ({ held }) =>
  held.value?.held.length > 0 && html`<ul class="from-stock__list">${held.value.held.map((one) => html`<${Held} key=${one.id} one=${one} onTold=${(body) => (held.value = body)} />`)}</ul>`;

/** `matches`: what POST /api/stock-matches says, null while it says nothing. */
export const FromStock = ({ job, matches, onTaken }) => {
  const [problem, busy] = [useSignal(null), useSignal(false)];
  const { quotation, revisionEtag } = job.server.value;
  const { body: held } = useReading(may('hold-stock') && quotation ? `/api/quotations/${quotation.number}/stock` : null, revisionEtag);
  const take = async (shell) => {
    busy.value = true;
    problem.value = await takeFromStock(job, shell);
    busy.value = false;
    onTaken();
  };
  const own = new Set(held.value?.held.map(({ id }) => id));
  if (!matches?.found.length && !own.size) return null;
  return html`<section class="card from-stock" id="from-stock" aria-labelledby="from-stock-title"><h2 id="from-stock-title">${t('from-stock.title')}</h2>
    <${HeldForQuotation} held=${held} />
    ${matches?.found.length > 0 && html`<p class="quiet">${t('from-stock.lead')}</p>
      <ul class="from-stock__list">${matches.found.map((match) => html`<${Match} key=${match.id} match=${match} held=${own.has(match.id)} busy=${busy.value} onTake=${take} />`)}</ul>`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</section>`;
};
