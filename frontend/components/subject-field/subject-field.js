// What of the shell it is about: its sort first, then which. Picked, not typed.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { SelectField } from '../field/field.js';

const grouped = (subjects) => subjects.reduce((sorts, one) => sorts.set(one.about, [...(sorts.get(one.about) ?? []), one]), new Map());

const Which = ({ of, value, onPick }) => html`<${SelectField} label=${t('subject.which')} required value=${value?.subject ?? ''} onWrite=${(text) => onPick(of.find(({ subject }) => subject === text) ?? null)}
  options=${[['', t('subject.pick')], ...of.map(({ subject, says }) => [subject, says])]} />`;

/** `names`: {about, subject, says} of all there is on the floor. `value`: the one that was picked; null: nothing yet. */
export const SubjectField = ({ shell, names, value, onPick }) => {
  const about = useSignal('');
  const sorts = grouped(names.filter(({ subject }) => shell.subjects.includes(subject)));
  const of = sorts.get(about.value) ?? [];
  const pick = (name) => {
    about.value = name;
    const only = sorts.get(name) ?? [];
    onPick(only.length === 1 ? only[0] : null);
  };
  return html`<${SelectField} label=${t('subject.label')} required value=${about.value} onWrite=${pick} options=${[['', t('subject.pick')], ...[...sorts.keys()].map((name) => [name, name])]} />
    ${of.length > 1 && html`<${Which} of=${of} value=${value} onPick=${onPick} />`}`;
};
