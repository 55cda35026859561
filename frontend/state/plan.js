// Days and lanes of the shop's calendar: where a ticket lies on a sheet of weeks with five days each. Draws nothing.
const DAY = 86_400_000;

const dayNumber = (text) => Date.parse(`${text}T00:00:00Z`) / DAY;
const dayText = (number) => new Date(number * DAY).toISOString().slice(0, 10);

/** The day so many days on. */
export const plus = (text, days) => dayText(dayNumber(text) + days);

/** The column of a day on a sheet that begins with the Monday `first`; a week-end lies behind its Friday. */
export const columnOf = (first, text) => {
  const days = dayNumber(text) - dayNumber(first);
  return Math.floor(days / 7) * 5 + Math.min(days - Math.floor(days / 7) * 7, 5);
};

/** The day of a column. */
export const dayOf = (first, column) => plus(first, Math.floor(column / 5) * 7 + (((column % 5) + 5) % 5));

/** The next column before or behind (`step` −1 or 1) that is not among the closed ones, within the sheet; else the same. */
export const nextOpen = (column, step, columns, closed) => {
  for (let at = column + step; at >= 0 && at < columns; at += step) if (!closed.has(at)) return at;
  return column;
};

/** Puts spans ({from, to}, columns) into lanes so that none lie on each other: each gets `lane`. */
export const laned = (spans) => {
  const ends = [];
  return spans
    .toSorted((one, other) => one.from - other.from || other.to - one.to)
    .map((span) => {
      const free = ends.findIndex((end) => end <= span.from);
      const lane = free < 0 ? ends.length : free;
      ends[lane] = span.to;
      return { ...span, lane };
    });
};

export const keyOf = ({ number, shell }) => `${number}/${shell}`;
/** As a ticket is short of room: 00042/1. */
export const shortOf = ({ number, shell }) => (shell ? `${number.slice(-5)}/${shell}` : number);
/** What is built for stock as tickets: `shell` 0, since it is of no order. */
export const stockOf = (plan) => plan.stock.map((one) => ({ ...one, shell: 0 }));

const changeOf = (row, ticket, behind) => row.changes.find((one) => one.number === ticket.number && one.shell === ticket.shell && one.behind === behind);

const spanOf = (row, ticket, visit, first) => {
  const [start, through] = [columnOf(first, visit.start), columnOf(first, visit.end)];
  const end = Math.max(through, start + 1);
  const [before, behind] = [changeOf(row, ticket, false), changeOf(row, ticket, true)];
  return { ticket, kind: visit.kind, start, end, before, behind, from: start - (before ? 1 : 0), to: end + (behind ? 1 : 0) };
};

/** The visits of a row as spans of the sheet, a column more where a changeover is counted before or behind the shell. */
export const spansOf = (row, tickets, first, columns) =>
  tickets
    .flatMap((ticket) => ticket.visits.filter(({ stage }) => stage === row.stage).map((visit) => spanOf(row, ticket, visit, first)))
    .filter(({ from, to }) => from < columns && to > 0);
