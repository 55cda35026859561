// The customer's answer to a revision that is out: his yes while it is in date, or his no with why. Each is said once and
// stays. When it was said the office may write; a dealer's answer counts from when he records it.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may, isDealer, person } from '../../state/session.js';
import { post, freshKey, Refusal } from '../../api.js';
import { announceIssued } from '../../state/issued.js';
import { reread } from '../../state/jobs.js';
import { problemOf } from '../../state/sending.js';
import { TextField, TextArea, SelectField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

const REASONS = ['price', 'date', 'detail', 'identity', 'other'];

/** Which answers the revision still takes: a no may come late, a yes may not. */
const open = (revision) => [
  ...(revision.state === 'issued' && may('accept') ? ['accept'] : []),
  ...(['issued', 'lapsed'].includes(revision.state) && may('decline') ? ['decline'] : []),
];

const moment = (text) => (text ? new Date(text).toISOString() : null);

const bodyOf = (act, { by, at, note, reason }) => ({
  said_by: by.trim(),
  note,
  ...(at ? { said_at: moment(at) } : {}),
  ...(act === 'decline' ? { reason } : {}),
});

const Form = ({ act, quotation, revision, customer, onDone }) => {
  const said = useSignal({ by: act === 'accept' ? customer ?? '' : '', at: '', note: '', reason: 'price' });
  const [problem, key, busy] = [useSignal(null), useSignal(freshKey()), useSignal(false)];
  const into = (name) => (value) => (said.value = { ...said.value, [name]: value });
  const press = async (event) => {
    event.preventDefault();
    busy.value = true;
    try {
      const path = `/api/quotations/${quotation.number}/revisions/${revision.letter}/${act}`;
      await post(path, bodyOf(act, said.value), { etag: `"${revision.version}"`, key: key.value });
      announceIssued(quotation.number, revision.letter);
      onDone(await reread(quotation.number));
    } catch (error) {
      problem.value = problemOf(error);
      if (error instanceof Refusal) key.value = freshKey();
    }
    busy.value = false;
  };
  return html`<form class="act" onSubmit=${press}>
    ${act === 'decline' && html`<${SelectField} label=${t('acts.reason')} value=${said.value.reason} options=${REASONS.map((one) => [one, t(`acts.reason.${one}`)])} onWrite=${into('reason')} />`}
    <${TextField} label=${t('acts.said-by')} maxlength="200" autocomplete="off" required=${act === 'accept'} value=${said.value.by} onWrite=${into('by')} />
    ${!isDealer.value && html`<${TextField} label=${t('acts.said-at')} hint=${t('acts.said-at-hint')} type="datetime-local" value=${said.value.at} onWrite=${into('at')} />`}
    <${TextArea} label=${t('acts.note')} rows="2" maxlength="10000" value=${said.value.note} onWrite=${into('note')} />
    <button class="button button--heavy" disabled=${busy.value}>${t(`acts.${act}-now`)}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
  </form>`;
};

/** A dealer who buys for his own stock is his own customer: his yes is the order. */
export const ownHouse = (customer) => isDealer.value && customer === person.value.dealer_name;

export const Acts = ({ quotation, revision, customer, onDone }) => {
  const chosen = useSignal(null);
  const acts = open(revision);
  if (!acts.length) return null;
  return html`<section class="card" aria-labelledby="acts-title"><h2 id="acts-title">${t('acts.title')}</h2>
    <div class="acts">${acts.map((act) => html`<button key=${act} class="button" aria-expanded=${chosen.value === act}
      onClick=${() => (chosen.value = chosen.value === act ? null : act)}>${t(act === 'accept' && ownHouse(customer) ? 'acts.order-stock' : `acts.${act}`)}</button>`)}</div>
    ${chosen.value && html`<${Form} key=${chosen.value} act=${chosen.value} quotation=${quotation} revision=${revision} customer=${customer} onDone=${onDone} />`}
    <p class="quiet">${t('acts.confirms-nothing')}</p></section>`;
};
