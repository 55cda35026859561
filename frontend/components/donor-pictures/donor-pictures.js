// The donor car as built, as it stands and as ordered: what is said of how it stands, and the rows that differ. One
// feature at a time is written: the feature, how it stands, who says so. What is written shows below at once.
import { useRef } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { book, choiceLabel, optionLabel, optionOf } from '../../state/book.js';
import { sayStands, sayWhoStands, writeOfStands } from '../../state/edit.js';
import { usePictures } from '../../state/pictures.js';
import { SelectField, TextField } from '../field/field.js';
import { Pointing } from '../photographs/photographs.js';

const SOURCES = ['plate-photograph', 'factory-record', 'owner'];
export const sources = () => [['', t('donor.said-by.nobody')], ...SOURCES.map((source) => [source, t(`donor.said-by.${source}`)])];

const features = () => (book.value?.options ?? []).filter(({ structural }) => structural);

const marked = ({ id, label }, values) => (values[id] ? t('pictures.said', { feature: say(label), choice: choiceLabel(id, values[id]) }) : say(label));

const Pair = ({ job, picked }) => {
  const { values } = job.document.value.donor.stands;
  const feature = optionOf(picked.value);
  return html`
    <${SelectField} label=${t('pictures.feature')} class="pictures__feature" value=${picked.value}
      options=${[['', t('pictures.pick')], ...features().map((row) => [row.id, marked(row, values)])]} onWrite=${(option) => (picked.value = option)} />
    <${SelectField} label=${t('pictures.value')} class="pictures__value" value=${values[picked.value] ?? ''} disabled=${!feature}
      options=${[['', t('pictures.nothing')], ...(feature?.choices ?? []).map((choice) => [choice.id, say(choice.label)])]}
      onWrite=${(choice) => sayStands(job, picked.value, choice || null)} />`;
};

const Who = ({ job }) => {
  const { said_by: source, note } = job.document.value.donor.stands;
  return html`
    <${SelectField} label=${t('pictures.said-by')} class="pictures__who" value=${source ?? ''} options=${sources()}
      onWrite=${(value) => sayWhoStands(job, value || null)} />
    <${Pointing} enquiry=${job.server.value.enquiry?.id} picture=${job.document.value.donor.stands} onPoint=${(photograph) => writeOfStands(job, 'photograph', photograph)} />
    <${TextField} label=${t('pictures.note')} class="field--wide" autocomplete="off" maxlength="1000" value=${note}
      onWrite=${(text) => writeOfStands(job, 'note', text)} />`;
};

/** A side that is another than the one before it is marked, by more than its weight. */
const Side = ({ option, choice, before, children }) => {
  const other = choice !== null && before !== null && choice !== before;
  const words = choice === null ? '–' : choiceLabel(option, choice);
  return html`<td role="cell" class=${other ? 'is-other' : null}>${other && html`<span aria-hidden="true">≠ </span>`}${words}${other && html`<span class="unseen"> (${t('pictures.other')})</span>`}${children}</td>`;
};

const TakeBack = ({ job, option }) => html` <button class="plain pictures__back" aria-label=${t('pictures.take-back-of', { feature: optionLabel(option) })}
  onClick=${() => sayStands(job, option, null)}>${t('pictures.take-back')}</button>`;

const Row = ({ job, row }) => {
  const said = row.option in job.document.value.donor.stands.values;
  return html`<tr role="row"><th scope="row" role="rowheader">${optionLabel(row.option)}</th>
    <${Side} option=${row.option} choice=${row.built} before=${null} />
    <${Side} option=${row.option} choice=${row.stands} before=${row.built}>${said && html`<${TakeBack} job=${job} option=${row.option} />`}<//>
    <${Side} option=${row.option} choice=${row.ordered} before=${row.stands ?? row.built} /></tr>`;
};

const Strip = ({ job, rows }) => html`<table class="ruled pictures__strip" role="table">
  <thead role="rowgroup"><tr role="row">${['option', 'built', 'stands', 'ordered'].map((side) => html`<th key=${side} scope="col" role="columnheader">${t(`pictures.${side}`)}</th>`)}</tr></thead>
  <tbody role="rowgroup">${rows.map((row) => html`<${Row} key=${row.option} job=${job} row=${row} />`)}</tbody></table>`;

/** What was said and makes no row: else it could neither be seen nor taken back. */
const Same = ({ job, rows }) => {
  const differ = new Set(rows.map(({ option }) => option));
  const same = Object.entries(job.document.value.donor.stands.values).filter(([option]) => !differ.has(option));
  return same.length > 0 && html`<ul class="pictures__same">${same.map(([option, choice]) => html`<li key=${option}>
    ${t('pictures.same', { feature: optionLabel(option), choice: choiceLabel(option, choice) })}<${TakeBack} job=${job} option=${option} /></li>`)}</ul>`;
};

/** Two facts, and which of them counts. */
const Decides = ({ donor }) => {
  const key = book.value?.roles.series;
  const now = donor.stands.values[key];
  return donor.series && now && now !== donor.series && html`<p class="pictures__decides">${t('pictures.decides', { built: choiceLabel(key, donor.series), now: choiceLabel(key, now) })}</p>`;
};

const countText = (rows) => {
  if (!rows) return '';
  if (rows.length === 1) return t('pictures.differ-one');
  return rows.length ? t('pictures.differ', { count: rows.length }) : t('pictures.none');
};

/** Open from the start only where somebody has said how the car stands; its head says how much differs either way. */
export const DonorPictures = ({ job }) => {
  const { donor } = job.document.value;
  const open = useRef(Object.keys(donor.stands.values).length > 0).current;
  const picked = useSignal('');
  const rows = usePictures(job);
  return html`<details class="more pictures" open=${open}><summary>${t('pictures.title')}<span class="pictures__count">${countText(rows)}</span></summary>
    <div class="fields pictures__fields"><${Pair} job=${job} picked=${picked} /><${Who} job=${job} /></div>
    <${Decides} donor=${donor} />
    ${rows?.length > 0 && html`<${Strip} job=${job} rows=${rows} />`}
    ${rows && html`<${Same} job=${job} rows=${rows} />`}
  </details>`;
};
