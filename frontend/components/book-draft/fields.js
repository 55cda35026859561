// The fields of a block, each as its form says: words in every language, a condition, a pick, a tick, a figure.
import { useId } from 'preact/hooks';
import { html } from '../../html.js';
import { t, say, knows } from '../../state/language.js';
import { SelectField, TextArea, TextField, TickField } from '../field/field.js';
import { ConditionField } from './condition.js';

const fieldName = (name) => (knows(`drafting.field.${name}`) ? t(`drafting.field.${name}`) : name);
const hintOf = (kind, name) => (knows(`drafting.hint.${kind}.${name}`) ? t(`drafting.hint.${kind}.${name}`) : undefined);
const labelled = (list) => (list ?? []).map((one) => [one.id, say(one.label) ? `${one.id} – ${say(one.label)}` : one.id]);

/** What a name may be picked from. Lines are priced things: an option, one of its choices, or a line of its own. */
const namesOf = (of, declared, own) => {
  if (of === 'own-choice') return own.map((one) => [one.id, say(one.label) || one.id]);
  if (of === 'line') return [...labelled(declared.of.option), ...labelled(declared.of.line)];
  if (of === 'rule') return [...labelled(declared.of.rule), ...labelled(declared.of.tool)];
  return labelled(declared.of[of]);
};

const Words = ({ field, declared, values, errors, onWrite }) => html`<div class="words field--wide">${declared.languages.map((code) => {
  const name = `${field.name} ${code}`;
  return html`<${TextArea} key=${name} lang=${code} rows="2" label=${`${fieldName(field.name)} – ${t(`drafting.in.${code}`)}`} error=${errors.get(name)} value=${values.get(name) ?? ''} onWrite=${(text) => onWrite(name, text)} />`;
})}</div>`;

const Names = ({ field, options, value, onWrite }) => {
  const name = useId();
  const chosen = value.split(',').map((one) => one.trim()).filter(Boolean);
  const known = [...options, ...chosen.filter((one) => !options.some(([id]) => id === one)).map((one) => [one, one])];
  const toggle = (id, on) => onWrite(field.name, known.map(([one]) => one).filter((one) => (one === id ? on : chosen.includes(one))).join(', '));
  return html`<details class="names field--wide" open=${chosen.length > 0 && known.length < 12}><summary>${fieldName(field.name)}: ${chosen.length ? chosen.join(', ') : t('drafting.none')}</summary>
    <div class="names__list">${known.map(([id, text]) => html`<label class="check" key=${id}><input type="checkbox" name=${name} checked=${chosen.includes(id)} onChange=${(event) => toggle(id, event.target.checked)} /> ${text}</label>`)}</div></details>`;
};

const Field = ({ draft, kind, field, own, values, errors, onWrite }) => {
  const value = values.get(field.name) ?? '';
  const common = { label: fieldName(field.name), hint: hintOf(kind, field.name), error: errors.get(field.name), value, onWrite: (text) => onWrite(field.name, text) };
  switch (field.sort) {
    case 'words':
      return html`<${Words} field=${field} declared=${draft.declared} values=${values} errors=${errors} onWrite=${onWrite} />`;
    case 'condition':
      return html`<${ConditionField} draft=${draft} needed=${field.needed || field.speaks} ...${common} />`;
    case 'yes':
      return html`<${TickField} label=${fieldName(field.name)} value=${value === 'yes'} onWrite=${(on) => onWrite(field.name, on ? 'yes' : '')} />`;
    case 'one-of':
      return html`<${SelectField} ...${common} options=${[['', t('drafting.pick')], ...field.of.split(', ').map((one) => [one, t(`drafting.${field.name}.${one}`)])]} />`;
    case 'name':
      return html`<${SelectField} ...${common} options=${withOwn([['', t('drafting.none')], ...namesOf(field.of, draft.declared, own)], value)} />`;
    case 'names':
      return html`<${Names} field=${field} options=${namesOf(field.of, draft.declared, own)} value=${value} onWrite=${onWrite} />`;
    default:
      return html`<${TextField} ...${common} inputmode=${field.sort === 'text' ? undefined : 'decimal'} autocomplete="off" />`;
  }
};

/** What goes with which kind of rule; what is written already is shown whatever the kind. */
const ONLY_WITH = { where: /^(needs|these exist)$/, part: /part/, before: /part|hold/ };

const isOfUse = (field, form, values) => {
  const only = form.kind === 'rule' && ONLY_WITH[field.name];
  const spoken = form.fields.find((one) => one.speaks && values.has(one.name))?.name ?? '';
  return !only || only.test(spoken) || [...values].some(([name, value]) => value && name.split(' ')[0] === field.name && !form.fields.some((one) => one.speaks && one.name === name));
};

const withOwn = (options, value) => (options.some(([id]) => id === value) ? options : [...options, [value, value]]);

/** A rule says exactly one thing; which, is picked first. Whoever changes the kind keeps the condition. */
const Speaking = ({ form, values, onValues }) => {
  const kinds = form.fields.filter((field) => field.speaks).map((field) => field.name);
  const now = kinds.find((kind) => values.has(kind)) ?? 'never';
  const pick = (kind) => {
    const said = values.get(now) ?? '';
    const next = new Map([...values].filter(([name]) => name !== now));
    onValues(new Map([[kind, kind === 'these exist' ? '' : said], ...next]));
  };
  return html`<${SelectField} label=${t('drafting.kind')} hint=${t(`drafting.kind-hint.${now}`)} value=${now} options=${kinds.map((kind) => [kind, t(`drafting.kind.${kind}`)])} onWrite=${pick} />`;
};

export const Fields = ({ draft, form, own, values, errors, onValues }) => {
  const write = (name, text) => onValues(new Map([...values, [name, text]]));
  const shown = form.fields.filter((field) => (field.speaks ? values.has(field.name) && field.sort !== 'table' : isOfUse(field, form, values)));
  return html`<div class="fields draft-fields">
    ${form.fields.some((field) => field.speaks) && html`<${Speaking} form=${form} values=${values} onValues=${onValues} />`}
    ${shown.map((field) => html`<${Field} key=${`${field.name}${field.sort}`} draft=${draft} kind=${form.kind} field=${field} own=${own} values=${values} errors=${errors} onWrite=${write} />`)}</div>`;
};
