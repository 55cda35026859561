// A shell as a job ticket on the sheet of weeks. It can be taken up by hand, and by the keyboard as well; both only propose.
import { useRef } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { day } from '../../format.js';
import { keyOf, shortOf } from '../../state/plan.js';

const SLIP = 5;

export const whatOf = ({ what }) => what.map(say).join(', ');

/** What a screen reader is told of the ticket, and what is written in its corner for everybody. */
export const stateOf = (ticket) => (ticket.late ? 'late' : ticket.waits.length ? 'waits' : ticket.begun ? 'begun' : 'planned');

const nameOf = (span, row) => {
  const { ticket } = span;
  const visit = ticket.visits.find(({ stage }) => stage === row.stage);
  return [t('calendar.ticket', { shell: shortOf(ticket), what: whatOf(ticket), customer: ticket.customer, stage: say(row.label), from: day(visit.start), to: day(visit.end) }), t(`calendar.state-${stateOf(ticket)}`), (span.behind || span.before) && t('calendar.then-change')].filter(Boolean).join('. ');
};

/** Taking a ticket along the sheet with the mouse: while it is held `column` says over which day it is. */
const useDrag = (columnAt, onDrop) => {
  const [held, moved, dropped] = [useRef(null), useSignal(null), useRef(false)];
  const down = (event) => {
    dropped.current = false;
    if (event.button !== 0 || event.pointerType === 'touch') return;
    held.current = { x: event.clientX, pointer: event.pointerId };
  };
  const move = (event) => {
    const from = held.current;
    if (!from || (moved.value === null && Math.abs(event.clientX - from.x) < SLIP)) return;
    event.currentTarget.setPointerCapture(from.pointer);
    moved.value = { by: event.clientX - from.x, column: columnAt(event.clientX) };
  };
  const leave = () => {
    held.current = null;
    moved.value = null;
  };
  const up = () => {
    if (moved.value) onDrop(moved.value.column);
    dropped.current = Boolean(moved.value);
    leave();
  };
  /** Whether the click that is coming is the end of a drag, and no press: said once. */
  const wasDrag = () => {
    const was = dropped.current;
    dropped.current = false;
    return was;
  };
  return { moved, wasDrag, on: { onPointerDown: down, onPointerMove: move, onPointerUp: up, onPointerCancel: leave } };
};

const Face = ({ span, row }) => html`<b>${shortOf(span.ticket)}</b> <span>${row.is_slot ? say(span.ticket.what[1] ?? span.ticket.what[0]) : span.ticket.customer}</span>`;

/** `kind`: the place of its kind in the legend. `movable`: may be put on another day; `columnAt(x)`: the column there. */
export const Ticket = ({ span, row, kind, columns, movable, lifted, picked, columnAt, onPick, onKey }) => {
  const { ticket, lane } = span;
  const { moved, wasDrag, on } = useDrag(columnAt, (column) => onPick(ticket, column));
  const shift = moved.value ? { transform: `translateX(${moved.value.by}px)` } : {};
  const place = { gridColumn: `${Math.max(span.start, 0) + 1} / ${Math.min(span.end, columns) + 1}`, gridRow: String(lane + 2), ...shift };
  const classes = ['ticket', `ticket--${stateOf(ticket)}`, `ticket--kind-${kind}`, movable && 'ticket--movable', moved.value && 'is-held', lifted && 'is-lifted', picked && 'is-picked'].filter(Boolean).join(' ');
  const press = () => !wasDrag() && onPick(ticket, null);
  return html`<button type="button" class=${classes} style=${place} data-ticket=${keyOf(ticket)} aria-pressed=${picked} aria-label=${nameOf(span, row)} title=${`${shortOf(ticket)} · ${whatOf(ticket)} · ${ticket.customer}`}
    onClick=${press} onKeyDown=${(event) => movable && onKey(event, ticket)} ...${movable ? on : {}}><${Face} span=${span} row=${row} /></button>`;
};

/** Built for stock: it gives way by itself, and is moved by nobody. */
export const StockTicket = ({ span: { ticket, lane, start, end }, row, kind, columns }) => {
  const visit = ticket.visits.find(({ stage }) => stage === row.stage);
  const told = t('stock.ticket', { number: ticket.number, what: whatOf(ticket), stage: say(row.label), from: day(visit.start), to: day(visit.end) });
  return html`<p class=${`ticket ticket--stock ticket--kind-${kind}${ticket.begun ? ' ticket--begun' : ''}`} role="img" aria-label=${told} title=${told} style=${{ gridColumn: `${Math.max(start, 0) + 1} / ${Math.min(end, columns) + 1}`, gridRow: String(lane + 2) }}>
    <b>${ticket.number}</b> <span>${row.is_slot ? say(ticket.what[1] ?? ticket.what[0]) : t('stock.for')}</span></p>`;
};

/** Half a slot for the change of kind, as a wedge between two tickets. */
export const Wedge = ({ span, at, columns }) =>
  at >= 0 && at < columns ? html`<span class="wedge" aria-hidden="true" title=${t('calendar.then-change')} style=${{ gridColumn: `${at + 1}`, gridRow: String(span.lane + 2) }}></span>` : null;
