// The table of a block: rows of cells to type in or to pick, added, taken out and moved. Columns that are options add up.
import { html } from '../../html.js';
import { t, say, knows } from '../../state/language.js';
import { SelectField } from '../field/field.js';

const languageColumn = /^(?:(clause|shell) )?([a-z]{2})$/;

/** What a column is called; a price list and an option go by their own names. */
const columnName = (column, declared) => {
  const found = languageColumn.exec(column);
  if (found) return [found[1] && t(`drafting.column.${found[1]}`), t(`drafting.in.${found[2]}`)].filter(Boolean).join(' ');
  const option = declared.of.option?.find((one) => one.id === column);
  if (option) return say(option.label) || column;
  return knows(`drafting.column.${column}`) ? t(`drafting.column.${column}`) : column;
};

/** Columns that name what another block declares. */
const DECLARED = ['stage', 'operation', 'process'];

/** Columns that take one of a few words, which are the book's own. */
const FEW = {
  operations: { sort: ['', 'hold', 'mask'] },
  holes: { sort: ['hole', 'bracket'], handed: ['', 'yes'] },
  gap: { side: ['left', 'right', 'middle'] },
  datums: { sort: ['distance', 'diagonal'] },
  kit: { sort: ['pressing', 'sub-assembly', 'jig'] },
};

/** What a cell may be picked from; null where it is typed. */
const pickFrom = (form, kind, column, row, head, declared, own) => {
  const named = (list) => (list ?? []).map((one) => [one.id, say(one.label) || one.id]);
  const option = declared.of.option?.find((one) => one.id === column);
  if (option && form.table.columns.includes('options')) return [['', '–'], ...named(option.parts)];
  if (column === 'option') return named(declared.of.option);
  if (column === 'choice' && form.table.first_of === 'option') return named(declared.of.option?.find((one) => one.id === row[head.indexOf('option')])?.parts);
  if (column === 'choice' && form.table.first_of) return named(own);
  if (DECLARED.includes(column) && head[0] !== column) return [['', '–'], ...named(declared.of[column])];
  return FEW[kind]?.[column]?.map((word) => [word, word || '–']) ?? null;
};

const known = (options, value) => (options.some(([id]) => id === value) ? options : [[value, value], ...options]);

const Cell = ({ name, row, options, value, amount, onWrite }) => {
  const label = t('drafting.cell', { column: name, row });
  if (options) return html`<select aria-label=${label} value=${value} onChange=${(event) => onWrite(event.target.value)}>
    ${known(options, value).map(([id, text]) => html`<option key=${id} value=${id} selected=${id === value}>${text}</option>`)}</select>`;
  return html`<input aria-label=${label} class=${amount ? 'cell--amount' : ''} value=${value} inputmode=${amount ? 'decimal' : undefined} onInput=${(event) => onWrite(event.target.value)} />`;
};

const Row = ({ row, at, head, names, pick, lists, last, faulty, onRow, onOut, onUp }) => html`<tr class=${faulty ? 'is-faulty' : ''}>
  ${row.map((cell, column) => html`<td key=${column} data-of=${names[column]}><${Cell} name=${names[column]} row=${row[0] || at + 1} options=${pick(head[column], row)} value=${cell} amount=${lists.includes(head[column])}
    onWrite=${(value) => onRow(row.map((one, number) => (number === column ? value : one)))} /></td>`)}
  <td class="grid__acts"><button type="button" class="plain" disabled=${at === 0} aria-label=${t('drafting.row-up-of', { row: row[0] || at + 1 })} onClick=${onUp}>↑</button>
    <button type="button" class="plain" disabled=${last} aria-label=${t('drafting.row-out-of', { row: row[0] || at + 1 })} onClick=${onOut}>${t('drafting.out')}</button></td></tr>`;

const moveUp = (rows, at) => [...rows.slice(0, at - 1), rows[at], rows[at - 1], ...rows.slice(at + 1)];

/** A column for another option; a column is taken out with the option's name. */
const Columns = ({ head, declared, onRows, rows }) => {
  const left = (declared.of.option ?? []).filter((option) => !head.includes(option.id));
  const add = (id) => id && onRows(rows.map((row, at) => [...row, at ? '' : id]));
  const drop = (id) => id && onRows(rows.map((row) => row.filter((_, at) => at !== head.indexOf(id))));
  const there = (declared.of.option ?? []).filter((option) => head.includes(option.id));
  const named = (list, first) => [['', first], ...list.map((one) => [one.id, say(one.label) || one.id])];
  return html`<div class="fields"><${SelectField} label=${t('drafting.add-column')} value="" options=${named(left, t('drafting.pick'))} onWrite=${add} />
    ${there.length > 0 && html`<${SelectField} label=${t('drafting.drop-column')} value="" options=${named(there, t('drafting.pick'))} onWrite=${drop} />`}</div>`;
};

/** `rows`: the heading first. `faulty(at)`: whether something is wrong in that row. */
export const Table = ({ draft, form, rows, own, faulty, onRows }) => {
  const { declared } = draft;
  const [head, ...body] = rows;
  const names = head.map((column) => columnName(column, declared));
  const lists = (declared.of.list ?? []).map((one) => one.id);
  const pick = (column, row) => pickFrom(form, form.kind, column, row, head, declared, own);
  const put = (next) => onRows([head, ...next]);
  return html`<div class="grid"><div class="scrolls" tabindex="0" role="group" aria-label=${t('drafting.table')}><table class="ruled stacks grid__table">
    <thead><tr>${names.map((name, at) => html`<th scope="col" key=${name} class=${lists.includes(head[at]) ? 'amount' : ''}>${name}</th>`)}<th scope="col"><span class="unseen">${t('drafting.row-acts')}</span></th></tr></thead>
    <tbody>${body.map((row, at) => html`<${Row} key=${at} row=${row} at=${at} head=${head} names=${names} pick=${pick} lists=${lists} last=${body.length === 1} faulty=${faulty(at + 1)}
      onRow=${(next) => put(body.map((one, number) => (number === at ? next : one)))} onOut=${() => put(body.filter((_, number) => number !== at))} onUp=${() => put(moveUp(body, at))} />`)}</tbody></table></div>
    ${!form.table.single && html`<button type="button" class="button" onClick=${() => put([...body, head.map(() => '')])}>${t('drafting.add-row')}</button>`}
    ${form.table.columns.includes('options') && html`<${Columns} head=${head} declared=${declared} rows=${rows} onRows=${onRows} />`}</div>`;
};

/** The heading row of a new table. */
export const freshTable = (form, declared) => {
  const lists = (declared.of.list ?? []).map((one) => one.id);
  const { languages } = declared;
  const spread = { languages, lists, options: [], 'clause languages': languages.map((code) => `clause ${code}`), 'shell languages': languages.map((code) => `shell ${code}`) };
  const head = form.table.columns.flatMap((column) => spread[column] ?? [column]);
  return [head, head.map(() => '')];
};
