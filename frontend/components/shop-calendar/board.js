// The sheet of weeks: a row for each stage that takes only so much, the shells in it, how full each week is, closed days.
import { useRef } from 'preact/hooks';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { day, exact } from '../../format.js';
import { columnOf, dayOf, keyOf, laned, spansOf, stockOf } from '../../state/plan.js';
import { StockTicket, Ticket, Wedge } from './ticket.js';

const weekNumber = ({ week }) => Number(week.slice(-2));
const dateOf = (text) => Number(text.slice(-2));

const limitText = (row, percent) => t(row.bays ? 'calendar.bays' : 'calendar.per-week', { count: row.bays ?? exact(row.per_week), percent: exact(percent) });
export const loadText = (row, load) => t(row.bays ? 'calendar.load-days' : 'calendar.load', { used: exact(load.used), takes: exact(load.takes), line: exact(load.line) });

const share = (part, whole) => `${whole > 0 ? Math.min((100 * part) / whole, 100) : 0}%`;

/** How full the week is: a bar, and the planned line as a stroke across it. */
const Load = ({ row, load, at }) => html`<div class=${`load${load.over ? ' load--over' : ''}`} style=${{ gridColumn: `${at * 5 + 1} / span 5` }}>
  <span class="load__bar" aria-hidden="true"><span class="load__fill" style=${{ width: share(Number(load.used), Number(load.takes)) }}></span>${Number(load.takes) > 0 && html`<span class="load__line" style=${{ left: share(Number(load.line), Number(load.takes)) }}></span>`}</span>
  <span class="load__figure" title=${loadText(row, load)}><span aria-hidden="true">${exact(load.used)} / ${exact(load.takes)}</span><span class="unseen">${loadText(row, load)}${load.over ? ` ${t('calendar.over')}` : ''}</span></span></div>`;

const Ground = ({ plan, first }) => html`${plan.weeks.map(({ monday }, at) => html`<span key=${monday} class="board__week" aria-hidden="true" style=${{ gridColumn: `${at * 5 + 1} / span 5` }}></span>`)}
  ${plan.weeks.flatMap(({ closed }) => closed).map((one) => html`<span key=${one.day} class=${`board__closed${one.closure ? ' board__closed--own' : ''}`} aria-hidden="true" title=${one.says} style=${{ gridColumn: `${columnOf(first, one.day) + 1}` }}></span>`)}`;

const Today = ({ plan, first, columns }) => {
  const at = columnOf(first, plan.today);
  return at >= 0 && at < columns ? html`<span class="board__today" aria-hidden="true" style=${{ gridColumn: `${Math.min(at, columns - 1) + 1}` }}></span>` : null;
};

const Head = ({ plan, columns }) => html`<div class="board__row board__row--head"><span class="board__name"></span><div class="board__days" style=${{ gridTemplateRows: 'auto auto' }}>
  ${plan.weeks.map((week, at) => html`<div key=${week.monday} class="board__head" style=${{ gridColumn: `${at * 5 + 1} / span 5` }}><b>${t('calendar.week', { week: weekNumber(week) })}</b> <span>${day(week.monday)}</span></div>`)}
  ${Array.from({ length: columns }, (_, at) => html`<span key=${at} class=${`board__date${dayOf(plan.weeks[0].monday, at) === plan.today ? ' board__date--today' : ''}`} aria-hidden="true" style=${{ gridColumn: `${at + 1}`, gridRow: '2' }}>${dateOf(dayOf(plan.weeks[0].monday, at))}</span>`)}</div></div>`;

const Down = ({ plan, first, columns }) =>
  plan.down.length > 0 &&
  html`<section class="board__row" aria-label=${t('calendar.down')}><h2 class="board__name">${t('calendar.down')}</h2><div class="board__days board__days--down" style=${{ gridTemplateRows: `repeat(${plan.down.length}, 1.7rem)` }}>
    <${Ground} plan=${plan} first=${first} />
    ${plan.down.map((one, at) => {
      const from = Math.max(columnOf(first, plan.today), 0);
      const to = one.until ? Math.min(columnOf(first, one.until), columns) : columns;
      return html`<p key=${one.tool} class="board__tool" style=${{ gridColumn: `${Math.min(from, columns - 1) + 1} / ${Math.max(to, from + 1) + 1}`, gridRow: String(at + 1) }}>${say(one.label)} <small>${one.until ? t('tool.back', { day: day(one.until) }) : t('tool.back-unknown')}</small></p>`;
    })}</div></section>`;

const Row = ({ row, plan, first, columns, kinds, hands }) => {
  const sheet = useRef(null);
  const spans = laned(spansOf(row, [...plan.tickets, ...stockOf(plan)], first, columns));
  const lanes = Math.max(1, ...spans.map(({ lane }) => lane + 1));
  const columnAt = (x) => {
    const { left, width } = sheet.current.getBoundingClientRect();
    return Math.min(Math.max(Math.floor(((x - left) / width) * columns), 0), columns - 1);
  };
  const movable = (ticket) => row.is_slot && hands.mayMove && !ticket.begun;
  return html`<section class=${`board__row${row.is_slot ? ' board__row--slots' : ''}`} aria-label=${say(row.label)}><h2 class="board__name">${say(row.label)}<small>${limitText(row, plan.percent)}</small></h2>
    <div class="board__days" ref=${sheet} style=${{ gridTemplateRows: `1.45rem repeat(${lanes}, ${row.is_slot ? '2.75rem' : '1.7rem'})` }}>
      <${Ground} plan=${plan} first=${first} /><${Today} plan=${plan} first=${first} columns=${columns} />
      ${row.weeks.map((load, at) => html`<${Load} key=${load.monday} row=${row} load=${load} at=${at} />`)}
      ${hands.lifted.value && row.is_slot && html`<span class="board__aim" aria-hidden="true" style=${{ gridColumn: `${hands.lifted.value.column + 1}` }}></span>`}
      ${spans.map((span) => span.ticket.shell === 0 ? html`<${StockTicket} key=${keyOf(span.ticket)} span=${span} row=${row} kind=${Math.max(kinds.indexOf(span.kind), 0)} columns=${columns} />` : html`<${Ticket} key=${keyOf(span.ticket)} span=${span} row=${row} kind=${Math.max(kinds.indexOf(span.kind), 0)} columns=${columns} movable=${movable(span.ticket)} lifted=${hands.lifted.value?.key === keyOf(span.ticket)} picked=${hands.picked.value?.key === keyOf(span.ticket)} columnAt=${columnAt} onPick=${hands.pick} onKey=${hands.key} />
        ${span.behind && html`<${Wedge} span=${span} at=${span.end} columns=${columns} />`}${span.before && html`<${Wedge} span=${span} at=${span.start - 1} columns=${columns} />`}`)}
    </div></section>`;
};

/** `kinds`: of the stage that changes over, in one order. `hands`: what is taken up and what happens to it. */
export const Board = ({ plan, kinds, hands }) => {
  const first = plan.weeks[0].monday;
  const columns = plan.weeks.length * 5;
  return html`<div class="board" role="region" tabindex="0" aria-label=${t('calendar.board')}><div class="board__sheet" style=${{ '--days': columns }}>
    <${Head} plan=${plan} columns=${columns} /><${Down} plan=${plan} first=${first} columns=${columns} />
    ${plan.rows.map((row) => html`<${Row} key=${row.stage} row=${row} plan=${plan} first=${first} columns=${columns} kinds=${kinds} hands=${hands} />`)}</div></div>`;
};
