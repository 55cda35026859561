// What the manager looks after, seen before anything else: what lapses soon, what waits for him, which tools are out.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { useReading } from '../../state/reading.js';
import { day, lastDay, money } from '../../format.js';
import { Link } from '../link/link.js';

/** Rows of a list that are shown here: the list itself is one press away. */
const SHOWN = 3;

/** What the path says; null until it is there, and where it can't be had: nothing is shown in its place. */
const useRead = (path) => useReading(path).body.value;

const Rest = ({ count }) => (count > SHOWN ? html`<li class="quiet">${t('watch.more', { count: count - SHOWN })}</li>` : null);

const Card = ({ id, title, count, none, rows, children }) => html`<section class="card watch__card" aria-labelledby=${`watch-${id}`}>
  <h3 id=${`watch-${id}`}>${title} <b class="watch__count">${count}</b></h3>
  ${rows.length ? html`<ul>${rows.slice(0, SHOWN)}<${Rest} count=${rows.length} /></ul>` : html`<p class="quiet">${none}</p>`}
  <p class="watch__foot">${children}</p></section>`;

const Promised = ({ one }) => html`<li><${Link} to=${`/quotations/${one.number}/${one.letter}`} class="watch__row">
  <span><b>${one.number} ${one.letter}</b><small>${one.customer}</small></span>
  <span>${t('slip.valid', { day: lastDay(one.valid_until) })}<small>${one.net === null ? '' : `${money(one.net, one.currency)} ${t('totals.before-tax')}`}</small></span><//></li>`;

const Lapsing = ({ read, onAll }) => html`<${Card} id="lapsing" title=${t('watch.lapsing')} count=${read.revisions.length} none=${t('watch.lapsing-none', { days: read.days })}
  rows=${read.revisions.map((one) => html`<${Promised} key=${one.number} one=${one} />`)}>
  <button class="button" onClick=${onAll}>${t('watch.lapsing-all')}</button>
  ${read.nets.length > 0 && html`<span class="watch__sums">${read.nets.map(({ currency, net }) => html`<b key=${currency}>${money(net, currency)} </b>`)}<small>${t('totals.before-tax')}</small></span>`}<//>`;

const Asked = ({ one }) => html`<li><${Link} to="/approvals" class="watch__row">
  <span><b>${one.approval.number} ${one.letter}</b><small>${one.customer}</small></span>
  <span>${one.approval.rule}<small>${say(one.title)}</small></span><//></li>`;

const Waiting = ({ read }) => html`<${Card} id="approvals" title=${t('watch.approvals')} count=${`${read.approvals.length}${read.more ? '+' : ''}`} none=${t('watch.approvals-none')}
  rows=${read.approvals.map((one) => html`<${Asked} key=${one.approval.id} one=${one} />`)}><${Link} to="/approvals" class="button">${t('watch.approvals-all')}<//><//>`;

const Out = ({ tool }) => html`<li><${Link} to="/tools" class="watch__row">
  <span><span class=${`tool__state tool__state--${tool.state}`}>${say(tool.label)}</span></span>
  <span>${t(`tool.${tool.state}`)}<small>${tool.state === 'down' ? (tool.until ? t('tool.back', { day: day(tool.until) }) : t('tool.back-unknown')) : ''}</small></span><//></li>`;

/** What is down may come back, so it stands above what is lost. */
const outOfOrder = (tools) => ['down', 'lost'].flatMap((state) => tools.filter((tool) => tool.state === state));

const Tools = ({ read }) => {
  const out = outOfOrder(read.tools);
  return html`<${Card} id="tools" title=${t('watch.tools')} count=${out.length} none=${t('watch.tools-none')}
    rows=${out.map((tool) => html`<${Out} key=${tool.id} tool=${tool} />`)}><${Link} to="/tools" class="button">${t('watch.tools-all')}<//><//>`;
};

const Proposed = ({ one }) => html`<li><${Link} to=${one.customer ? `/customers/${one.customer}` : '/bank-details'} class="watch__row">
  <span><b>${one.customer ? one.name : t('watch.bank-own')}</b><small>${one.by_name}</small></span><span>${day(one.day)}</span><//></li>`;

/** Shown only where something waits: most days nobody changes his bank. */
const BankDetails = ({ read }) => html`<${Card} id="bank" title=${t('watch.bank')} count=${read.waiting.length} none=""
  rows=${read.waiting.map((one) => html`<${Proposed} key=${one.id} one=${one} />`)} />`;

/** `onIssued`: shows the list of all that is issued. */
export const Watch = ({ onIssued }) => {
  const [lapsing, approvals, tools] = [useRead('/api/about-to-lapse'), useRead('/api/approvals?stage=waiting'), useRead('/api/tools')];
  const bank = useRead('/api/bank-details/waiting');
  return html`<section class="watch" aria-labelledby="watch"><h2 id="watch">${t('watch.title')}</h2><div class="watch__cards">
    ${lapsing && html`<${Lapsing} read=${lapsing} onAll=${onIssued} />`}
    ${approvals && html`<${Waiting} read=${approvals} />`}
    ${tools && html`<${Tools} read=${tools} />`}
    ${bank?.waiting.length > 0 && html`<${BankDetails} read=${bank} />`}</div></section>`;
};
