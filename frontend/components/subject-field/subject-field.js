// What of the shell it is about: its sort first, then which. Picked, not typed.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { useReading } from '../../state/reading.js';
import { SelectField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

const grouped = (subjects) => subjects.reduce((sorts, one) => sorts.set(one.about, [...(sorts.get(one.about) ?? []), one]), new Map());

const Which = ({ of, value, onWrite }) => html`<${SelectField} label=${t('subject.which')} required value=${value} onWrite=${onWrite} options=${[['', t('subject.pick')], ...of.map(({ subject, says }) => [subject, says])]} />`;

export const SubjectField = ({ shell, value, onWrite }) => {
  const about = useSignal('');
  const { body, problem } = useReading(`/api/shells/${shell.id}/subjects`);
  if (problem.value) return html`<${Notice} problem=${problem.value} />`;
  const sorts = grouped(body.value?.subjects ?? []);
  const of = sorts.get(about.value) ?? [];
  const pick = (name) => {
    about.value = name;
    const only = sorts.get(name) ?? [];
    onWrite(only.length === 1 ? only[0].subject : '');
  };
  return html`<${SelectField} label=${t('subject.label')} required value=${about.value} onWrite=${pick} options=${[['', t('subject.pick')], ...[...sorts.keys()].map((name) => [name, name])]} />
    ${of.length > 1 && html`<${Which} of=${of} value=${value} onWrite=${onWrite} />`}`;
};
