// What the dealer's own offers bear: his address and how he is reached, and his margin, which hides with the prices.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, language } from '../../state/language.js';
import { pricesShown } from '../../state/session.js';
import { put } from '../../api.js';
import { day } from '../../format.js';
import { errorOf, problemOf } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { useReady } from '../../state/coming.js';
import { decimal } from '../../state/amounts.js';
import { TextArea, TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

/** As the reader writes it. */
const spoken = (margin) => (language.value === 'de' ? margin?.replace('.', ',') : margin) ?? '';

const toSend = ({ address, telephone, email, margin }) => ({ address, telephone, email, ...(pricesShown.value && margin?.trim() ? { margin: decimal(margin.trim().replace(/\s*%$/, '')) } : {}) });

const Form = ({ held, onHeld }) => {
  const [typed, problem, done] = [useSignal(held), useSignal(null), useSignal(false)];
  // The margin comes and goes with the prices; what is typed beside it stays.
  useEffect(() => void (typed.value = { ...typed.value, margin: spoken(held.margin) }), [held.margin]);
  const write = (name) => (text) => ((typed.value = { ...typed.value, [name]: text }), (done.value = false));
  const press = (event) => {
    event.preventDefault();
    put('/api/retail-terms', toSend(typed.value)).then(({ body }) => ((problem.value = null), (done.value = true), onHeld(body)), (error) => (problem.value = problemOf(error)));
  };
  return html`<form class="house__form" onSubmit=${press}>
    <${TextArea} label=${t('retail.address')} hint=${t('retail.address-hint')} error=${errorOf(problem, 'address')} rows="3" required maxlength="500" value=${typed.value.address} onWrite=${write('address')} />
    <${TextField} label=${t('retail.telephone')} type="tel" maxlength="200" autocomplete="off" value=${typed.value.telephone} onWrite=${write('telephone')} />
    <${TextField} label=${t('retail.email')} type="email" maxlength="200" autocomplete="off" value=${typed.value.email} onWrite=${write('email')} />
    ${pricesShown.value
      ? html`<${TextField} label=${t('retail.margin')} hint=${t('retail.margin-hint')} error=${errorOf(problem, 'margin')} inputmode="decimal" maxlength="8" autocomplete="off" value=${typed.value.margin ?? ''} onWrite=${write('margin')} />`
      : html`<p class="quiet">${t('retail.margin-hidden')}</p>`}
    <div class="acts"><button class="button button--heavy">${t('retail.save')}</button><span role="status">${done.value ? t('retail.saved') : ''}</span></div>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

export const RetailTerms = ({ onReady }) => {
  const read = useReading('/api/retail-terms');
  const { body: held, problem } = read;
  useReady(read, onReady);
  return html`<section class="card" aria-labelledby="retail-terms"><h2 id="retail-terms">${t('retail.terms')}</h2>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${held.value && html`<p><b>${held.value.name}</b>${held.value.said_at && html` <small class="quiet">${t('retail.said', { by: held.value.said_by, day: day(held.value.said_at) })}</small>`}</p>
      <${Form} held=${held.value} onHeld=${(body) => (held.value = body)} />`}</section>`;
};
