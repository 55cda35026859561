// Bank details: what holds, what waits for a second person, and every change there was. One manager proposes and says how
// it was confirmed, another agrees; a message alone changes nothing.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may, today } from '../../state/session.js';
import { day, dayAndTime } from '../../format.js';
import { errorOf, useSending } from '../../state/sending.js';
import { useReading } from '../../state/reading.js';
import { Folded } from '../folded/folded.js';
import { SelectField, TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

const HOW = ['telephone', 'in-person'];

const Fact = ({ label, children }) => (children ? html`<div class="bank__fact"><dt>${label}</dt><dd>${children}</dd></div>` : null);

const Account = ({ one }) => html`<dl class="bank__account">
  <${Fact} label=${t('bank.holder')}>${one.holder}<//><${Fact} label=${t('bank.account')}>${one.account}<//>
  <${Fact} label=${t('bank.routing')}>${one.routing}<//><${Fact} label=${t('bank.bank')}>${one.bank}<//></dl>`;

const confirmedText = (one) => t(`bank.confirmed-${one.how}`, { by: one.spoken_to, day: day(one.day), number: one.known_number });

const Confirmed = ({ one }) => html`<p>${confirmedText(one)}<br /><small class="quiet">${t('bank.proposed', { at: dayAndTime(one.at), by: one.by_name })}</small></p>`;

const answerText = ({ answer }) =>
  answer && t(answer.agreed ? 'bank.agreed' : 'bank.turned-down', { at: dayAndTime(answer.at), by: answer.by_name, why: answer.why });

const Propose = ({ path, onDetails, onDone }) => {
  const said = useSignal({ holder: '', account: '', routing: '', bank: '', how: 'telephone', spoken_to: '', known_number: '', day: today() });
  const { send, problem, busy } = useSending();
  const typed = (name) => ({ value: said.value[name], onWrite: (text) => (said.value = { ...said.value, [name]: text }) });
  const text = (name, more = {}) => html`<${TextField} label=${t(`bank.${name}`)} autocomplete="off" maxlength="200" error=${errorOf(problem, name)} ...${typed(name)} ...${more} />`;
  const press = async (event) => {
    event.preventDefault();
    const after = await send(path, said.value);
    if (!after) return;
    onDone();
    onDetails(after);
  };
  return html`<form class="money-form" onSubmit=${press}>
    <p class="money-form__lead quiet">${t('bank.propose-lead')}</p>
    ${text('holder', { required: true })}${text('account', { required: true, hint: t('bank.account-hint') })}${text('routing', { hint: t('bank.routing-hint') })}${text('bank')}
    <${SelectField} label=${t('bank.how')} options=${HOW.map((one) => [one, t(`bank.how-${one}`)])} ...${typed('how')} />
    ${text('spoken_to', { required: true })}
    ${said.value.how === 'telephone' && text('known_number', { required: true, type: 'tel', hint: t('bank.known_number-hint') })}
    ${text('day', { type: 'date', required: true, max: today() })}
    <button class="button button--heavy" disabled=${busy.value}>${t('bank.propose-now')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const TurnDown = ({ press, busy }) => {
  const why = useSignal('');
  return html`<form class="money-form" onSubmit=${(event) => (event.preventDefault(), press(false, why.value))}>
    <${TextField} class="field--wide" label=${t('bank.why')} required autocomplete="off" maxlength="200" value=${why.value} onWrite=${(text) => (why.value = text)} />
    <button class="button" disabled=${busy}>${t('bank.turn-down-now')}</button></form>`;
};

const Waits = ({ one, onDetails }) => {
  const { send, problem, busy } = useSending();
  const press = async (agreed, why = '') => {
    const after = await send(`/api/bank-details/${one.id}/answer`, { agreed, why });
    if (after) onDetails(after);
  };
  return html`<div class="bank__waits"><h3>${t('bank.waits')}</h3><${Account} one=${one} /><${Confirmed} one=${one} />
    ${may('agree-bank') && html`${one.mine ? html`<p class="payment__says">${t('bank.not-your-own')}</p>` : html`<p>${t('bank.agree-lead')}</p>`}
      <div class="acts">${!one.mine && html`<button class="button button--heavy" disabled=${busy.value} onClick=${() => press(true)}>${t('bank.agree')}</button>`}
        <${Folded} label=${t('bank.turn-down')}>${() => html`<${TurnDown} press=${press} busy=${busy.value} />`}<//></div>`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</div>`;
};

const Before = ({ proposals }) => html`<details class="more"><summary>${t('bank.history', { count: proposals.length })}</summary>
  <ol class="history">${proposals.map((one) => html`<li key=${one.id}><b>${one.holder}, ${one.account}</b><br />${confirmedText(one)} ${t('bank.proposed', { at: dayAndTime(one.at), by: one.by_name })} ${answerText(one)}</li>`)}</ol></details>`;

/** `path`: of the firm's own or of a customer's; `lead`: what they are for. */
export const BankDetails = ({ path, lead }) => {
  const { body, problem } = useReading(path);
  const details = body.value;
  if (!details && !problem.value) return null;
  const take = (after) => (body.value = after);
  return html`<section class="card bank" aria-labelledby="bank-title"><h2 id="bank-title">${t('bank.title')}</h2>
    ${problem.value ? html`<${Notice} problem=${problem.value} />` : html`<p class="quiet">${lead} ${t('bank.lead')}</p>
    ${details.holds ? html`<${Account} one=${details.holds} /><p class="quiet">${confirmedText(details.holds)} ${answerText(details.holds)}</p>` : html`<p>${t('bank.none')}</p>`}
    ${details.waits && html`<${Waits} one=${details.waits} onDetails=${take} />`}
    ${may('propose-bank') && !details.waits && html`<${Folded} label=${t('bank.propose')}>${(close) => html`<${Propose} path=${path} onDetails=${take} onDone=${close} />`}<//>`}
    ${details.proposals.length > 0 && html`<${Before} proposals=${details.proposals} />`}`}</section>`;
};
