// One safety fault: what is at fault and why, whom it stops, whom to write to, and how it is lifted.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say, LANGUAGES } from '../../state/language.js';
import { may } from '../../state/session.js';
import { useReading } from '../../state/reading.js';
import { errorOf, useSending } from '../../state/sending.js';
import { day, dayAndTime } from '../../format.js';
import { Folded } from '../folded/folded.js';
import { TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { Owners } from './owners.js';
import { SafetyShells } from './shells.js';

const Lift = ({ fault, onDone, onLeave }) => {
  const why = useSignal('');
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    if (await send(`/api/safety-faults/${fault.id}/lifting`, { why: why.value })) onDone();
  };
  return html`<form class="act" onSubmit=${press}><p>${t('safety.lift-means')}</p>
    <${TextField} label=${t('safety.lift-why')} required autocomplete="off" maxlength="2000" value=${why.value} error=${errorOf(problem, 'why')} onWrite=${(text) => (why.value = text)} />
    <div class="acts"><button class="button button--heavy" disabled=${busy.value}>${t('safety.lift')}</button><button type="button" class="button" onClick=${onLeave}>${t('floor.leave')}</button></div>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const untold = (why) => LANGUAGES.filter((one) => !why[one]).map((one) => t(`language.${one}`)).join(', ');

/** The shells that it may be in as they stand now; of what has left the house the office sees whom to write to. */
const Concerned = ({ fault }) => {
  const { body, problem } = useReading(`/api/safety-faults/${fault.id}`);
  if (problem.value) return html`<${Notice} problem=${problem.value} />`;
  if (!body.value) return null;
  const { shells } = body.value;
  const letters = may('see-safety-letters') && shells.despatched.length > 0;
  return html`${letters && html`<${Owners} fault=${fault} />`}<${SafetyShells} shells=${shells} lifted=${Boolean(fault.lifted)} without=${letters ? ['despatched'] : []} />`;
};

const Stands = ({ fault, onDone }) => html`<${Concerned} fault=${fault} />
    ${untold(fault.why) && may('see-safety-letters') && html`<p>${t('safety.untold', { languages: untold(fault.why) })}</p>`}
    ${may('lift-safety') && html`<${Folded} label=${t('safety.lift')}>${(close) => html`<${Lift} fault=${fault} onDone=${onDone} onLeave=${close} />`}<//>`}`;

const sinceText = (fault) => (fault.since ? t('safety.since-day', { day: day(fault.since) }) : t('safety.since-ever'));

/** A lifted fault is opened when somebody asks for it. */
const Lifted = ({ fault }) => html`<p>${t('safety.lifted-by', { by: fault.lifted.by_name, at: dayAndTime(fault.lifted.at) })} <q>${fault.lifted.why}</q></p>
  <${Folded} label=${t('safety.concerned')}>${() => html`<${Concerned} fault=${fault} />`}<//>`;

export const FaultCard = ({ fault, onDone }) => html`<section class=${fault.lifted ? 'safety-fault safety-fault--lifted' : 'safety-fault card'} aria-label=${say(fault.label)}>
  <h2>${say(fault.label)}</h2>
  <p class="quiet">${t(`safety.subject.${fault.subject}`)} · ${sinceText(fault)} · ${t('safety.said-by', { by: fault.by_name, at: dayAndTime(fault.at) })}</p>
  <p class="safety-fault__why">${say(fault.why)}</p>
  ${fault.lifted ? html`<${Lifted} fault=${fault} />` : html`<${Stands} fault=${fault} onDone=${onDone} />`}</section>`;
