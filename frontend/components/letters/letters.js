// The texts to send about a revision that is out: chosen, copied, and put on record once a person has sent them.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, LANGUAGES } from '../../state/language.js';
import { may } from '../../state/session.js';
import { useReading } from '../../state/reading.js';
import { useSending } from '../../state/sending.js';
import { day } from '../../format.js';
import { TextField, TextArea, SelectField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

const WAYS = ['e-mail', 'post', 'telephone', 'by-hand'];

const Sent = ({ sent }) => html`<ul class="letters__sent">${sent.map((one, at) => html`<li key=${at}>
  ${t('letters.sent', { kind: t(`letters.${one.kind}`), day: day(one.sent_on), to: one.to, way: t(`letters.way.${one.way}`), by: one.by_name })}</li>`)}</ul>`;

const Recording = ({ path, text, kind, to, onDone }) => {
  const said = useSignal({ way: 'e-mail', to, sent_on: '' });
  const { send, problem, busy } = useSending();
  const into = (name) => (value) => (said.value = { ...said.value, [name]: value });
  const press = async (event) => {
    event.preventDefault();
    const { sent_on, ...rest } = said.value;
    if (await send(`${path}/sendings`, { kind, text, ...rest, ...(sent_on ? { sent_on } : {}) })) onDone();
  };
  return html`<form class="act" onSubmit=${press}>
    <${SelectField} label=${t('letters.way')} value=${said.value.way} options=${WAYS.map((one) => [one, t(`letters.way.${one}`)])} onWrite=${into('way')} />
    <${TextField} label=${t('letters.to')} required maxlength="200" autocomplete="off" value=${said.value.to} onWrite=${into('to')} />
    <${TextField} label=${t('letters.sent-on')} hint=${t('letters.sent-on-hint')} type="date" value=${said.value.sent_on} onWrite=${into('sent_on')} />
    <button class="button button--heavy" disabled=${busy.value}>${t('letters.record')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
  </form>`;
};

export const Copy = ({ letter, text }) => {
  const copied = useSignal(false);
  const press = () => navigator.clipboard.writeText(`${letter.subject}\n\n${text}`).then(() => (copied.value = true), () => (copied.value = false));
  return html`<button class="button" onClick=${press}>${t('letters.copy')}</button> <span role="status">${copied.value ? t('letters.copied') : ''}</span>`;
};

const Letter = ({ letter, path, customer, onDone }) => {
  const text = useSignal(letter.text);
  return html`<p><b>${letter.subject}</b></p>
    <${TextArea} label=${t('letters.text')} rows="14" maxlength="10000" lang=${letter.language} value=${text.value} onWrite=${(value) => (text.value = value)} />
    <p class="acts"><${Copy} letter=${letter} text=${text.value} /></p>
    <p class="quiet">${t('letters.not-sent-here')}</p>
    ${may('issue') && html`<${Recording} path=${path} text=${text.value} kind=${letter.kind} to=${customer?.email || customer?.name || ''} onDone=${onDone} />`}`;
};

const useLetters = (path, language, turn) => useReading(`${path}/letters${language ? `?language=${language}` : ''}`, turn).body.value;

export const Letters = ({ quotation, revision, customer, onSent }) => {
  const [kind, language, turn] = [useSignal(null), useSignal(''), useSignal(0)];
  const path = `/api/quotations/${quotation.number}/revisions/${revision.letter}`;
  const held = useLetters(path, language.value, turn.value);
  if (!held || !(held.letters.length || held.sent.length)) return null;
  const letter = held.letters.find((one) => one.kind === kind.value);
  const done = () => {
    kind.value = null;
    turn.value += 1;
    onSent?.();
  };
  return html`<section class="card letters" aria-labelledby="letters-title"><h2 id="letters-title">${t('letters.title')}</h2>
    ${held.sent.length ? html`<${Sent} sent=${held.sent} />` : html`<p class="quiet">${t('letters.none-sent')}</p>`}
    ${held.letters.length > 0 && html`<div class="acts">${held.letters.map((one) => html`<button key=${one.kind} class="button" aria-expanded=${kind.value === one.kind}
      onClick=${() => (kind.value = kind.value === one.kind ? null : one.kind)}>${t(`letters.${one.kind}`)}</button>`)}</div>`}
    ${letter && html`<div class="letters__languages" role="group" aria-label=${t('customer.language')}>${LANGUAGES.map((one) => html`<button key=${one} class="plain" lang=${one} aria-pressed=${letter.language === one}
      onClick=${() => (language.value = one)}>${{ en: 'English', de: 'Deutsch' }[one]}</button>`)}</div>
      <${Letter} key=${`${letter.kind} ${letter.language}`} letter=${letter} path=${path} customer=${customer} onDone=${done} />`}
  </section>`;
};
