// What is otherwise than in the last revision that left the house: one table, each side as it stands there.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { book, choiceLabel, optionLabel, reasonOf } from '../../state/book.js';
import { pricesShown } from '../../state/session.js';
import { country, money } from '../../format.js';

const NEEDS = { parts: 'part', approvals: 'approval', cautions: 'caution', holds: 'hold', tools: 'tool' };
const NOTHING = '–';

const moved = ({ before, after }) => JSON.stringify(before) !== JSON.stringify(after);

const choiceText = (option, choice) => (choice === null ? NOTHING : choiceLabel(option, choice));
const daysText = (days) => (days ? t('ready.range', { from: days.from_days, to: days.to_days }) : NOTHING);
const placeText = ({ country: code, region, term }) => [code && country(code), region, term].filter(Boolean).join(', ') || NOTHING;

const bookOrder = () => new Map((book.value?.options ?? []).map((option, at) => [option.id, at]));
const inOrder = (answers) => {
  const order = bookOrder();
  return [...answers].sort((one, other) => (order.get(one.option) ?? 999) - (order.get(other.option) ?? 999));
};

/** [what, before, after] of one line; `named` says which line where there are several. */
const lineRows = (line, named) => {
  const of = (what) => named(line, what);
  const shells = (count) => (count ? t('changes.shells', { count }) : NOTHING);
  if (line.came || line.went) return [[of(t(line.came ? 'changes.came' : 'changes.went')), shells(line.quantity.before), shells(line.quantity.after)]];
  return [
    ...(moved(line.quantity) ? [[of(t('changes.quantity')), line.quantity.before, line.quantity.after]] : []),
    ...inOrder(line.answers).map(({ option, before, after }) => [of(optionLabel(option)), choiceText(option, before), choiceText(option, after)]),
  ];
};

const need = (id) => html`<b>${id}</b> ${reasonOf(id)}`;

/** The first column says already on which side it stands: its sentence gets the room of both. */
const needRows = (depends, came) =>
  Object.entries(NEEDS).flatMap(([many, kind]) =>
    depends[many].map((id) => [`${t(`depends.${kind}`)}: ${t(came ? 'changes.come' : 'changes.gone')}`, need(id)]));

const termRows = ({ price_list: list, place, donor, note, extras }) => [
  ...extras.map(({ extra, label, before, after }) => [say(label) || extra, before || NOTHING, after || NOTHING]),
  ...(moved(list) ? [[t('price.list-for'), list.before, list.after]] : []),
  ...(moved(place) ? [[t('delivery.country'), placeText(place.before), placeText(place.after)]] : []),
  ...(moved(donor) ? [[t('donor.title'), donor.before || NOTHING, donor.after || NOTHING]] : []),
  ...(moved(note) ? [[t('revision.note'), note.before || NOTHING, note.after || NOTHING]] : []),
];

const figures = (sums, name) => (sums ? sums.cases.map((one) => money(one[name], sums.currency)).join(' / ') : NOTHING);

/** Price and days stand there also where they stayed: whoever reads the list asks for them first. */
const sumRows = ({ sums, ready }) => [
  ...(pricesShown.value && sums
    ? [['with_tax', 'changes.total'], ['deposit', 'totals.deposit']].map(([name, key]) => [t(key), figures(sums.before, name), figures(sums.after, name)])
    : []),
  [t('ready.title'), daysText(ready.before), daysText(ready.after)],
];

const naming = (changes) => {
  const single = changes.lines.every((line) => [line.number.before, line.number.after].every((number) => number === 1));
  return (line, what) => (single ? what : t('changes.of-line', { line: line.number.after ?? line.number.before, what }));
};

const rowsOf = (changes) => [
  ...changes.lines.flatMap((line) => lineRows(line, naming(changes))),
  ...termRows(changes),
  ...needRows(changes.come, true),
  ...needRows(changes.gone, false),
];

const Cells = ({ cells }) => (cells.length === 1 ? html`<td colspan="2">${cells[0]}</td>` : cells.map((cell, at) => html`<td key=${at}>${cell}</td>`));

const Rows = ({ rows }) => rows.map(([what, ...cells], at) => html`<tr key=${at}><th scope="row">${what}</th><${Cells} cells=${cells} /></tr>`);

const Table = ({ changes }) => html`<table class="ruled changes"><thead><tr>
    <th scope="col">${t('changes.what')}</th><th scope="col">${t('revisions.one', { letter: changes.against })}</th><th scope="col">${t('changes.now')}</th></tr></thead>
  <tbody><${Rows} rows=${rowsOf(changes)} /></tbody><tbody class="changes__sums"><${Rows} rows=${sumRows(changes)} /></tbody></table>`;

export const Changes = ({ changes }) =>
  changes && html`<section class="card" aria-labelledby="changes-title"><h2 id="changes-title">${t('changes.title', { letter: changes.against })}</h2>
    ${changes.any ? html`<${Table} changes=${changes} />` : html`<p class="quiet">${t('changes.none', { letter: changes.against })}</p>`}</section>`;
