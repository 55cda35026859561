// A promise as it is read out: the range in dates and weeks, what binds it, a date for each stage, and what would be sooner.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { choiceLabel, optionLabel } from '../../state/book.js';
import { day } from '../../format.js';

const week = (text) => Number(text.slice(-2));

export const rangeText = ({ ready, ready_by: by }) => t('promise.range', { from: day(ready), to: day(by) });
export const weeksText = ({ weeks }) => t('promise.weeks', { from: week(weeks[0]), to: week(weeks[1]) });

export const Stages = ({ steps }) => html`<table class="promise__stages"><caption>${t('promise.stages')}</caption><tbody>
  ${steps.map(({ stage, label, start }) => html`<tr key=${stage}><th scope="row">${say(label)}</th><td>${day(start)}</td></tr>`)}</tbody></table>`;

const toStock = (event) => {
  event.preventDefault();
  document.getElementById('from-stock')?.scrollIntoView();
};

const also = ({ also: more }) => Object.entries(more).map(([option, choice]) => `${optionLabel(option)}: ${choiceLabel(option, choice)}`).join(', ');

const FromStock = ({ match }) => html`<li><b>${t('from-stock.instead', { shell: match.name })}</b> ${t('promise.sooner-by', { range: rangeText(match), days: match.days })}
  ${' '}<a href="#from-stock" onClick=${toStock}>${t('from-stock.look')}</a></li>`;

/** `stock`: the first shell of the firm's stock that fits and comes sooner, if there is one. */
const Sooner = ({ sooner, stock }) => html`<h4>${t('promise.sooner')}</h4><ul>${stock && html`<${FromStock} match=${stock} />`}${sooner.map((one) => html`<li key=${one.option}><b>${optionLabel(one.option)}: ${say(one.label)}</b>
  ${' '}${t('promise.sooner-by', { range: rangeText(one), days: one.days })}${also(one) && html` <small>${t('promise.also', { changes: also(one) })}</small>`}</li>`)}</ul>`;

const Others = ({ bindings }) => html`<h4>${t('promise.binds')}</h4><ul>${bindings.map((one, at) => html`<li key=${at}>${one.says}</li>`)}</ul>`;

/** `dated`: what POST /api/promises says. In the title block: the range and its reason; the rest opens below. */
export const Promised = ({ dated }) => {
  if (!dated?.promise) return html`<p class="promise__why">${dated?.says ?? ''}</p>`;
  return html`<p class="promise__range"><b>${rangeText(dated.promise)}</b> <small>${weeksText(dated.promise)}</small></p><p class="promise__why">${dated.says}</p>`;
};

export const PromiseMore = ({ dated, stock }) => dated?.promise && html`<details class="promise__more"><summary>${t('promise.more')}</summary><div class="promise__sheet">
    <${Stages} steps=${dated.promise.steps} />
    ${dated.promise.bindings.length > 0 && html`<${Others} bindings=${dated.promise.bindings} />`}
    ${(dated.sooner.length > 0 || stock) && html`<${Sooner} sooner=${dated.sooner} stock=${stock} />`}
    <p class="quiet">${dated.basis}</p></div></details>`;
