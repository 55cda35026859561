// The same plan on a telephone: week after week, the slots as a list, the other stages folded.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { day } from '../../format.js';
import { keyOf, plus, shortOf, stockOf } from '../../state/plan.js';
import { loadText } from './board.js';
import { stateOf, whatOf } from './ticket.js';

const inWeek = (visit, monday) => visit.start < plus(monday, 7) && visit.end > monday;
const startsIn = (visit, monday) => visit.start >= monday && visit.start < plus(monday, 7);

const entries = (row, plan, monday, picks) =>
  [...plan.tickets, ...stockOf(plan)].flatMap((ticket) => ticket.visits.filter((visit) => visit.stage === row.stage && picks(visit, monday)).map((visit) => ({ ticket, visit }))).toSorted((one, other) => one.visit.start.localeCompare(other.visit.start));

const changes = (row, monday) => row.changes.filter((one) => one.monday === monday).length;

const Entry = ({ entry: { ticket, visit }, picked, onPick }) => html`<li><button type="button" class=${`week__ticket ticket--${stateOf(ticket)}`} data-ticket=${keyOf(ticket)} aria-pressed=${picked} onClick=${() => onPick(ticket, null)}>
  <b>${shortOf(ticket)}</b> <span>${whatOf(ticket)}</span><small>${day(visit.start)} · ${t(`calendar.state-${stateOf(ticket)}`)} · ${ticket.customer}</small></button></li>`;

const StockEntry = ({ entry: { ticket, visit } }) => html`<li class="week__ticket ticket--stock"><b>${ticket.number}</b> <span>${whatOf(ticket)}</span><small>${day(visit.start)} · ${t('stock.for')}</small></li>`;

const Entries = ({ row, plan, monday, picks, hands }) => {
  const found = entries(row, plan, monday, picks);
  return found.length ? html`<ul>${found.map((entry) => entry.ticket.shell === 0 ? html`<${StockEntry} key=${keyOf(entry.ticket)} entry=${entry} />` : html`<${Entry} key=${keyOf(entry.ticket)} entry=${entry} picked=${hands.picked.value?.key === keyOf(entry.ticket)} onPick=${hands.pick} />`)}</ul>` : html`<p class="quiet">${t('calendar.none')}</p>`;
};

const Slots = ({ row, plan, at, hands }) => {
  const load = row.weeks[at];
  return html`<h3>${say(row.label)} <small class=${load.over ? 'load--over' : ''}>${loadText(row, load)}${load.over ? ` ${t('calendar.over')}` : ''}</small></h3>
    ${changes(row, load.monday) > 0 && html`<p class="week__change">${t('calendar.changes', { count: changes(row, load.monday) })}</p>`}
    <${Entries} row=${row} plan=${plan} monday=${load.monday} picks=${startsIn} hands=${hands} />`;
};

const Other = ({ row, plan, at, hands }) => html`<details><summary>${say(row.label)} <small class=${row.weeks[at].over ? 'load--over' : ''}>${loadText(row, row.weeks[at])}</small></summary><${Entries} row=${row} plan=${plan} monday=${row.weeks[at].monday} picks=${inWeek} hands=${hands} /></details>`;

const Week = ({ plan, at, hands }) => {
  const { monday, week, closed } = plan.weeks[at];
  return html`<section class="card week" aria-label=${t('calendar.week', { week: Number(week.slice(-2)) })}><h2>${t('calendar.week', { week: Number(week.slice(-2)) })} <small>${day(monday)}</small></h2>
    ${closed.map((one) => html`<p key=${one.day} class="week__closed">${t('calendar.closed-day', { day: day(one.day), why: one.says })}</p>`)}
    ${plan.rows.map((row) => (row.is_slot ? html`<${Slots} key=${row.stage} row=${row} plan=${plan} at=${at} hands=${hands} />` : html`<${Other} key=${row.stage} row=${row} plan=${plan} at=${at} hands=${hands} />`))}</section>`;
};

const Down = ({ down }) => down.length > 0 && html`<section class="card"><h2>${t('calendar.down')}</h2><ul>${down.map((one) => html`<li key=${one.tool}>${say(one.label)}: ${one.until ? t('tool.back', { day: day(one.until) }) : t('tool.back-unknown')}</li>`)}</ul></section>`;

export const Weeks = ({ plan, hands }) => html`<${Down} down=${plan.down} />${plan.weeks.map((week, at) => html`<${Week} key=${week.monday} plan=${plan} at=${at} hands=${hands} />`)}`;
