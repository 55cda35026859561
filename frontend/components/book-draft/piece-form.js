// One block of the rule book to change: by its form or, as every block can be, as its lines.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { TextArea, TextField, SelectField } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { Fields } from './fields.js';
import { Table, freshTable } from './table.js';

const SINGLE = ['these exist'];

/** What a block is about, where that is picked rather than named. */
const NAMED_BY_PICK = ['option', 'stage'];

/** The choices of the option that the block is about. */
const choicesOf = (piece, draft) => {
  const option = (id) => draft.declared.of.option?.find((one) => one.id === id)?.parts ?? [];
  if (piece.kind === 'option' || piece.kind === 'phrases') return option(piece.name);
  return piece.kind === 'delivery' ? option(draft.declared.roles.delivery) : [];
};

/** What is sent: fields in the order in which they stood, new ones behind them, empty ones left out. */
const entryOf = (form, piece, held) => ({
  kind: piece.kind,
  name: held.name,
  fields: [...held.values].filter(([name, value]) => value.trim() || SINGLE.includes(name)).map(([name, value]) => ({ name, value })),
  rows: form.table && speaksByTable(form, held.values) ? held.rows : [],
});

/** A rule has its table only while that is what speaks. */
const speaksByTable = (form, values) => !form.fields.some((field) => field.sort === 'table') || values.has('these exist');

const Named = ({ form, piece, draft, name, onWrite }) => {
  if (!form.named) return null;
  if (NAMED_BY_PICK.includes(form.name_of)) {
    return html`<${SelectField} label=${t(`drafting.column.${form.name_of}`)} value=${name} options=${[['', t('drafting.pick')], ...(draft.declared.of[form.name_of] ?? []).map((one) => [one.id, say(one.label) || one.id])]} onWrite=${onWrite} />`;
  }
  return html`<${TextField} label=${t('drafting.id')} hint=${t('drafting.id-hint')} value=${name} onWrite=${onWrite} autocomplete="off" spellcheck="false" />`;
};

const ByForm = ({ draft, form, piece, held }) => {
  const put = (next) => (held.value = { ...held.value, ...next });
  const { name, values, rows } = held.value;
  const own = choicesOf({ ...piece, name }, draft);
  const found = placed(piece);
  return html`<${Named} form=${form} piece=${piece} draft=${draft} name=${name} onWrite=${(text) => put({ name: text })} />
    <${Fields} draft=${draft} form=${form} own=${own} values=${values} errors=${found.fields} onValues=${(next) => put({ values: next })} />
    ${form.table && speaksByTable(form, values) && html`<${Table} draft=${draft} form=${form} rows=${rows.length ? rows : freshTable(form, draft.declared)} own=${own} faulty=${(at) => found.rows.has(at)} onRows=${(next) => put({ rows: next })} />`}`;
};

/** Where in the block each mistake stands: field → what to mend, and rows of the table (0: its heading). */
const placed = ({ text = '', faults = [] }) => {
  const lines = text.split('\n').map((line) => line.trim());
  const found = { fields: new Map(), rows: new Set() };
  faults.forEach(({ row, what, instead }) => {
    if (row === null) return;
    if (lines[row].startsWith('|')) found.rows.add(lines.slice(0, row).filter((line) => line.startsWith('|')).length);
    const name = lines.slice(0, row + 1).reverse().find((line) => /^[A-Za-z][A-Za-z' -]*:/.test(line))?.split(':')[0];
    if (name && row > 0 && !lines[row].startsWith('|')) found.fields.set(name, `${what}: ${instead}`);
  });
  return found;
};

const fresh = (piece, form, draft) => ({
  name: piece.name,
  values: new Map(piece.fields.map(({ name, value }) => [name, value])),
  rows: piece.rows.length || !form.table ? piece.rows : freshTable(form, draft.declared),
});

/** `onForm(entry)` and `onText(text)` send; they give true where it was taken. */
export const PieceForm = ({ draft, form, piece, problem, busy, onForm, onText, children }) => {
  const asText = useSignal(!piece.whole);
  const text = useSignal(piece.text ?? '');
  const held = useSignal(fresh(piece, form, draft));
  const send = (event) => {
    event.preventDefault();
    if (asText.value) onText(text.value);
    else onForm(entryOf(form, piece, held.value));
  };
  return html`<form class="card draft-piece" onSubmit=${send}>
    ${asText.value ? html`<${TextArea} class="draft-text" label=${t('drafting.lines')} rows=${Math.min(30, text.value.split('\n').length + 2)} spellcheck="false" value=${text.value} onWrite=${(typed) => (text.value = typed)} />` : html`<${ByForm} draft=${draft} form=${form} piece=${piece} held=${held} />`}
    ${problem && html`<${Notice} problem=${problem} />`}
    <div class="acts"><button class="button button--heavy" disabled=${busy}>${t('drafting.keep')}</button>${children}
      ${piece.text && piece.whole && html`<button type="button" class="plain" onClick=${() => (asText.value = !asText.value)}>${t(asText.value ? 'drafting.as-form' : 'drafting.as-lines')}</button>`}</div></form>`;
};
