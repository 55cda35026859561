// The point that is read now: what it is, what it has to be, one big way to say what was found, and on to the next.
import { useEffect, useId, useRef } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { day, dayAndTime } from '../../format.js';
import { decimal } from '../../state/amounts.js';
import { SelectField, TextField } from '../field/field.js';
import { Keypad } from './keypad.js';
import { Photograph } from './photograph.js';

/** Which gauge was last used for a sort of thing, on this tablet. */
const lastUsed = new Map();

const gaugeText = (gauge) => t(gauge.good ? 'inspect.gauge-good' : 'inspect.gauge-out', { mark: gauge.mark, due: day(gauge.due) });

const Gauges = ({ gauges, value, onWrite }) => {
  if (!gauges.length) return html`<p class="inspect-stop">${t('inspect.no-gauge')}</p>`;
  return html`<${SelectField} label=${t('inspect.gauge')} value=${String(value ?? '')} onWrite=${(id) => onWrite(Number(id))} options=${gauges.map((one) => [String(one.id), gaugeText(one)])} />`;
};

const Choices = ({ choices, onTake }) => html`<div class="inspect-choices">${choices.map(([value, text]) => html`<button type="button" key=${value} class="button inspect-choice" onClick=${() => onTake(value)}>${text}</button>`)}</div>`;

const CHOICES = {
  yes: () => [['yes', t('inspect.yes')], ['no', t('inspect.no')]],
  found: () => ['present', 'blanked', 'absent'].map((one) => [one, t(`inspect.found.${one}`)]),
  class: () => ['0', '1', '2', '3', '4', '5'].map((one) => [one, one]),
};

const Colour = ({ onTake }) => {
  const parts = [useSignal(''), useSignal(''), useSignal('')];
  const take = (event) => {
    event.preventDefault();
    onTake(parts.map((one) => decimal(one.value).replace('−', '-')).join(' '));
  };
  return html`<form class="inspect-colour" onSubmit=${take}>${['L*', 'a*', 'b*'].map((name, at) => html`<${TextField} key=${name} label=${name} inputmode="decimal" required autocomplete="off" value=${parts[at].value} onWrite=${(text) => (parts[at].value = text)} />`)}
    <button class="button button--heavy">${t('inspect.take')}</button></form>`;
};

const Number_ = ({ subject, onTake }) => {
  const [typed, id] = [useSignal(''), useId()];
  const take = () => typed.value && typed.value !== '-' && onTake(typed.value.replace(/\.$/, ''));
  const flush = subject.kind.startsWith('flush');
  return html`<${Keypad} id=${id} label=${`${subject.says}: ${subject.label}`} value=${typed.value} unit=${subject.unit} whole=${subject.told === 'count'} minus=${flush} onWrite=${(text) => (typed.value = text)} onEnter=${take} />
    ${flush && html`<p class="quiet">${t('inspect.flush')}</p>`}
    <button type="button" class="button button--heavy inspect-take" disabled=${!typed.value} onClick=${take}>${t('inspect.take')}</button>`;
};

const How = ({ subject, onTake }) => {
  if (subject.told === 'colour') return html`<${Colour} onTake=${onTake} />`;
  const choices = CHOICES[subject.told];
  return choices ? html`<${Choices} choices=${choices()} onTake=${onTake} />` : html`<${Number_} subject=${subject} onTake=${onTake} />`;
};

const Before = ({ subject }) => html`
  ${subject.void && html`<p class="inspect-stop">${t(`inspect.void.${subject.void.why}`, { gauge: subject.void.gauge, due: day(subject.void.due), value: subject.void.value })}</p>`}
  ${subject.reading && html`<p><span class=${`mark-of mark-of--${subject.mark}`}>${t(`inspect.mark.${subject.mark}`)}</span> <b>${subject.measured}</b>
    <span class="quiet"> ${t('inspect.read-by', { by: subject.reading.by_name, at: dayAndTime(subject.reading.at) })}${subject.reading.gauge ? `, ${subject.reading.gauge}` : ''}</span></p>`}
  ${subject.earlier.length > 0 && html`<details><summary>${t('inspect.earlier', { count: subject.earlier.length })}</summary><ul>${subject.earlier.map((one) => html`<li key=${one.at + one.value}>${one.value} <span class="quiet">${t('inspect.read-by', { by: one.by_name, at: dayAndTime(one.at) })}${one.gauge ? `, ${one.gauge}` : ''}</span></li>`)}</ul></details>`}`;

const useGauge = (subject, gauges) => {
  const fitting = gauges.filter(({ sort }) => sort === subject.gauge_sort);
  const known = fitting.find(({ id }) => id === lastUsed.get(subject.gauge_sort)) ?? fitting.find(({ good }) => good) ?? fitting[0];
  const picked = useSignal(known?.id ?? null);
  return { fitting, picked };
};

/** `onTake(value, gauge)`: it was read. `at`: which of how many, where it is still to be read. */
export const Point = ({ one, subject, unsent, onTake, onStep, onShell }) => {
  const { fitting, picked } = useGauge(subject, one.gauges);
  const head = useRef(null);
  useEffect(() => head.current?.focus({ preventScroll: true }), [subject.id]);
  const take = (value) => {
    if (subject.gauge_sort) lastUsed.set(subject.gauge_sort, picked.value);
    onTake(value, subject.gauge_sort ? picked.value : null);
  };
  const out = fitting.find(({ id }) => id === picked.value)?.good === false;
  return html`<section class="inspect-point card" aria-labelledby="inspect-point">
    <p class="inspect-point__kind">${subject.says}</p>
    <h2 id="inspect-point" tabindex="-1" ref=${head}>${subject.number ? html`<span class="inspect-number">${subject.number}</span> ` : ''}${subject.label || subject.says}</h2>
    <p class="inspect-limit">${t('inspect.limit', { limit: subject.limit })}</p>
    <${Before} subject=${subject} />
    ${unsent && html`<p class="inspect-unsent">${t('inspect.unsent-one', { value: unsent.value })}</p>`}
    ${may('take-readings') && html`
      ${subject.gauge_sort && html`<${Gauges} gauges=${fitting} value=${picked.value} onWrite=${(id) => (picked.value = id)} />`}
      ${out && html`<p class="inspect-stop">${t('inspect.gauge-stop')}</p>`}
      ${(!subject.gauge_sort || fitting.length > 0) && html`<${How} key=${subject.id} subject=${subject} onTake=${take} />`}`}
    <div class="inspect-steps"><button type="button" class="button" onClick=${() => onStep(-1)}>${t('inspect.previous')}</button><button type="button" class="button" onClick=${() => onStep(1)}>${t('inspect.skip')}</button></div>
    <${Photograph} one=${one} subject=${subject} onShell=${onShell} /></section>`;
};
