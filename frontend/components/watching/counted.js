// A table whose counts lead to the rows they are counted from: a press on the figure shows them beneath.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { Bar } from './bar.js';

/** `rows`: [{key, head, count, cells}]; `columns`: heads of `cells`; `detail(key)` draws what a row is counted from. */
export const CountedTable = ({ labelled, first, count, columns, rows, detail }) => {
  const chosen = useSignal(null);
  const most = Math.max(0, ...rows.map((row) => row.count));
  const press = (key) => () => (chosen.value = chosen.value === key ? null : key);
  const open = rows.find((row) => row.key === chosen.value);
  return html`<table class="ruled stacks counted" aria-labelledby=${labelled}><thead><tr><th>${first}</th><th>${count}</th>${columns.map((head) => html`<th key=${head}>${head}</th>`)}</tr></thead>
    <tbody>${rows.map((row) => html`<tr key=${row.key}><th scope="row">${row.head}</th>
      <td data-of=${count}><span class="counted__count"><button class="plain" disabled=${!row.count} aria-expanded=${chosen.value === row.key} aria-label=${t('watching.rows-of', { count: row.count, what: row.said })} onClick=${press(row.key)}>${row.count}</button><${Bar} value=${row.count} most=${most} /></span></td>
      ${row.cells.map((cell, at) => html`<td key=${at} data-of=${columns[at]}><div>${cell}</div></td>`)}</tr>`)}</tbody></table>
    <div class="counted__rows" aria-live="polite">${open && html`<h3>${open.head}</h3>${detail(open.key)}`}</div>`;
};
