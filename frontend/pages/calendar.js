// The calendar of the shop: weeks across, a row for each stage that takes only so much, shells as job tickets. Nothing moves
// before every promise that moves with it was shown.
import { batch, useSignal } from '@preact/signals';
import { html } from '../html.js';
import { language, t } from '../state/language.js';
import { may } from '../state/session.js';
import { choiceLabel } from '../state/book.js';
import { day } from '../format.js';
import { narrow } from '../state/narrow.js';
import { go } from '../state/route.js';
import { columnOf, dayOf, keyOf, nextOpen, plus, shortOf } from '../state/plan.js';
import { useReading } from '../state/reading.js';
import { SelectField, TextField } from '../components/field/field.js';
import { Feeds } from '../components/feeds/feeds.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';
import { BetterWeeks } from '../components/better-weeks/better-weeks.js';
import { Board } from '../components/shop-calendar/board.js';
import { Stock } from '../components/stock/stock.js';
import { TicketSheet } from '../components/shop-calendar/ticket-sheet.js';
import { Weeks } from '../components/shop-calendar/weeks.js';

const SPANS = ['4', '6', '9', '13'];

const calendarOf = (monday, weeks) => `/api/calendar?${new URLSearchParams({ ...(monday ? { first: monday } : {}), weeks })}`;

const holderOf = (plan, on, ticket) => plan.tickets.find((one) => one.promise.slot === on && one.visits.some(({ start }) => start === on) && keyOf(one) !== keyOf(ticket));

const liftText = (plan, ticket, on) => {
  const holder = holderOf(plan, on, ticket);
  return t(holder ? 'calendar.lifted-over' : 'calendar.lifted', { shell: shortOf(ticket), day: day(on), other: holder ? shortOf(holder) : '' });
};

/** What is taken up: `picked` {key, to} lies open below the sheet, `lifted` {key, column} is on its way by the keyboard. */
const useHands = (plan) => {
  const [picked, lifted, says] = [useSignal(null), useSignal(null), useSignal('')];
  if (!plan) return null;
  const first = plan.weeks[0].monday;
  const columns = plan.weeks.length * 5;
  const closed = new Set(plan.weeks.flatMap((week) => week.closed).map((one) => columnOf(first, one.day)));
  const drop = () => batch(() => ((lifted.value = null), (says.value = '')));
  const pick = (ticket, column) => {
    drop();
    picked.value = { key: keyOf(ticket), to: column === null ? null : dayOf(first, column) };
  };
  const step = (ticket, by) => {
    const from = lifted.value?.key === keyOf(ticket) ? lifted.value.column : columnOf(first, ticket.promise.slot);
    const column = nextOpen(from, by, columns, closed);
    lifted.value = { key: keyOf(ticket), column };
    says.value = liftText(plan, ticket, dayOf(first, column));
  };
  const key = (event, ticket) => {
    const up = lifted.value?.key === keyOf(ticket);
    const by = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (by && (event.shiftKey || up)) step(ticket, by);
    else if (up && event.key === 'Enter') pick(ticket, lifted.value.column);
    else if (up && event.key === 'Escape') drop();
    else return;
    event.preventDefault();
  };
  const close = () => {
    const was = picked.value?.key;
    picked.value = null;
    document.querySelector(`[data-ticket="${was}"]`)?.focus();
  };
  return { picked, lifted, says, pick, key, close, mayMove: may('see-calendar') };
};

const kindsOf = (plan) => {
  const row = plan.rows.find(({ changes_of: option }) => option);
  const kinds = new Set([...plan.tickets, ...plan.stock].flatMap(({ visits }) => visits.filter(({ stage }) => stage === row?.stage).map(({ kind }) => kind)));
  return { option: row?.changes_of, kinds: [...kinds].toSorted() };
};

const Legend = ({ plan, option, kinds }) => html`<ul class="legend" aria-label=${t('calendar.legend')}>
  ${kinds.map((kind, at) => html`<li key=${kind}><span class=${`legend__ticket ticket--kind-${at}`} aria-hidden="true"></span>${choiceLabel(option, kind)}</li>`)}
  ${['planned', 'waits', 'begun', 'late'].map((state) => html`<li key=${state}><span class=${`legend__ticket ticket--${state}`} aria-hidden="true"></span>${t(`calendar.state-${state}`)}</li>`)}
  ${plan.stock.length > 0 && html`<li><span class="legend__ticket ticket--stock" aria-hidden="true"></span>${t('stock.for')}</li>`}
  <li><span class="wedge legend__wedge" aria-hidden="true"></span>${t('calendar.then-change')}</li>
  <li><span class="load__bar legend__bar" aria-hidden="true"><span class="load__fill legend__fill"></span><span class="load__line legend__line"></span></span>${t('calendar.legend-line', { percent: plan.percent, weeks: plan.over_weeks })}</li>
  <li><span class="board__closed legend__closed" aria-hidden="true"></span>${t('calendar.legend-closed')}</li></ul>`;

const pathOf = (monday) => `/calendar/${monday}`;

const Turn = ({ plan, weeks, span }) => {
  const first = plan.weeks[0].monday;
  return html`<div class="calendar__turn"><${Link} class="button" to=${pathOf(plus(first, -7 * span))}>${t('calendar.earlier')}<//>
    <${Link} class="button" to="/calendar">${t('calendar.this-week')}<//>
    <${Link} class="button" to=${pathOf(plus(first, 7 * span))}>${t('calendar.later')}<//>
    <a class="button" href=${`/api/calendar/paper?first=${first}&weeks=13&language=${language.value}`} target="_blank" rel="noopener">${t('calendar.paper')}</a>
    <${TextField} label=${t('calendar.from')} type="date" value=${first} onWrite=${(text) => /^\d{4}-\d\d-\d\d$/.test(text) && go(pathOf(text))} />
    <${SelectField} label=${t('calendar.weeks')} options=${SPANS.map((one) => [one, one])} value=${weeks.value} onWrite=${(text) => (weeks.value = text)} /></div>`;
};

export const CalendarPage = ({ monday = '' }) => {
  const [weeks, turns] = [useSignal(narrow.value ? '4' : '6'), useSignal(0)];
  const { body: { value: plan }, problem } = useReading(calendarOf(monday, weeks.value), turns.value);
  const hands = useHands(plan);
  if (!plan) return problem.value ? html`<${Notice} problem=${problem.value} />` : html`<p class="quiet waiting">${t('waiting')}</p>`;
  const { option, kinds } = kindsOf(plan);
  const picked = plan.tickets.find((one) => keyOf(one) === hands.picked.value?.key);
  const moved = () => {
    hands.close();
    turns.value += 1;
  };
  return html`<div class="work calendar"><h1>${t('calendar.title')}</h1><p class="quiet">${t('calendar.lead')}</p>
    <${Turn} plan=${plan} weeks=${weeks} span=${Number(weeks.value)} />
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${!narrow.value && html`<${Legend} plan=${plan} option=${option} kinds=${kinds} />`}
    <p class="calendar__says" role="status">${hands.says.value}</p>
    ${narrow.value ? html`<${Weeks} plan=${plan} hands=${hands} />` : html`<${Board} plan=${plan} kinds=${kinds} hands=${hands} />`}
    ${picked && html`<${TicketSheet} ticket=${picked} to=${hands.picked.value.to} onMoved=${moved} onClose=${hands.close} />`}
    ${!narrow.value && html`<p class="quiet">${t('calendar.keys')}</p>`}
    <${BetterWeeks} onMoved=${moved} />
    <${Stock} turn=${turns.value} onChanged=${() => (turns.value += 1)} />
    ${may('own-feeds') && html`<${Feeds} />`}</div>`;
};
