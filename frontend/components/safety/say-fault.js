// Saying that something is at fault: what, since when, then what follows from it, then why, and only then the press.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { errorOf, useSending } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { Group } from '../follows/follows.js';
import { SelectField, TextArea, TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { SafetyShells } from './shells.js';

const SUBJECTS = ['choice', 'tool', 'operation', 'zone', 'books'];

const Which = ({ said, from, error, write }) => {
  if (said.subject === 'books')
    return html`<${TextField} label=${t('safety.first-book')} type="number" min="1" max=${from.last_book} value=${said.first} error=${error} onWrite=${write('first')} />
      <${TextField} label=${t('safety.last-book')} type="number" min="1" max=${from.last_book} value=${said.last} onWrite=${write('last')} />`;
  const options = from.subjects.filter((one) => one.subject === said.subject).map((one) => [one.of, say(one.label)]);
  return html`<${SelectField} label=${t('safety.which')} value=${said.of} error=${error} options=${[['', t('safety.pick')], ...options]} onWrite=${write('of')} />`;
};

const ofText = (said) => (said.subject === 'books' ? said.first && said.last && `${said.first}-${said.last}` : said.of);

const queryOf = (of, said) => `subject=${said.subject}&of=${encodeURIComponent(of)}${said.since ? `&since=${said.since}` : ''}`;

const Follow = ({ found }) => html`<div class="follows"><h2>${t('follows.title')}</h2><${SafetyShells} shells=${found.shells} />
  ${found.touched.filter((group) => group.count > 0).map((group) => html`<${Group} key=${group.sort} group=${group} />`)}
  <p class="quiet">${t('safety.follows-lead')}</p></div>`;

const Whys = ({ languages, why, problem, write }) => languages.map((one) => html`<${TextArea} key=${one} label=${t('safety.why', { language: t(`language.${one}`) })} hint=${one === languages[0] ? t('safety.why-hint') : null} rows="4" maxlength="10000" lang=${one}
  value=${why[one] ?? ''} error=${errorOf(problem, `why.${one}`) ?? (one === languages[0] ? errorOf(problem, 'why') : null)} onWrite=${write(one)} />`);

export const SayFault = ({ onDone, onLeave }) => {
  const from = useReading('/api/safety-subjects').body.value;
  const said = useSignal({ subject: 'zone', of: '', first: '', last: '', since: '' });
  const why = useSignal({});
  const { send, problem, busy } = useSending();
  const of = ofText(said.value);
  const query = of ? queryOf(of, said.value) : null;
  const found = useReading(query && `/api/safety-consequences?${query}`);
  const write = (name) => (value) => (said.value = { ...said.value, [name]: value, ...(name === 'subject' ? { of: '', first: '', last: '' } : {}) });
  const press = async (event) => {
    event.preventDefault();
    const after = await send('/api/safety-faults', { subject: said.value.subject, of, since: said.value.since || null, why: why.value });
    if (after) onDone();
  };
  if (!from) return null;
  const refused = found.problem.value;
  const seen = query && !refused && found.body.value;
  return html`<form class="tool-switch safety-form" onSubmit=${press}>
    <div class="safety-form__what"><${SelectField} label=${t('safety.subject')} value=${said.value.subject} options=${SUBJECTS.map((one) => [one, t(`safety.subject.${one}`)])} onWrite=${write('subject')} />
      <${Which} said=${said.value} from=${from} error=${query ? errorOf(found.problem, 'of') : null} write=${write} />
      <${TextField} label=${t('safety.since')} hint=${t('safety.since-hint')} type="date" value=${said.value.since} error=${errorOf(problem, 'since')} onWrite=${write('since')} /></div>
    <div aria-live="polite">${refused && query && !errorOf(found.problem, 'of') && html`<${Notice} problem=${refused} />`}${seen && html`<${Follow} found=${seen} />`}</div>
    <${Whys} languages=${from.languages} why=${why.value} problem=${problem} write=${(one) => (text) => (why.value = { ...why.value, [one]: text })} />
    <div class="acts"><button class="button button--heavy button--large" disabled=${!seen || busy.value}>${t('safety.press')}</button>
      <button type="button" class="button" onClick=${onLeave}>${t('floor.leave')}</button></div>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
  </form>`;
};
