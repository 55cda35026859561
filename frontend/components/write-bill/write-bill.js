// A button that writes a bill. Where its tax has to be stated in the tax office's currency, the rate is asked for first:
// a person enters it with its day and who publishes it, nothing is looked up or proposed.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { today } from '../../state/session.js';
import { useSending } from '../../state/sending.js';
import { decimal } from '../../state/amounts.js';
import { TextField, typed } from '../field/field.js';
import { Folded } from '../folded/folded.js';
import { Notice } from '../notice/notice.js';
import { Sure } from '../sure/sure.js';

const Plain = ({ path, body, label, says, onOrder }) => {
  const { send, problem, busy } = useSending();
  const press = async () => {
    const after = await send(path, body);
    if (after) onOrder(after);
  };
  return html`${says ? html`<${Sure} label=${label} says=${says} busy=${busy.value} onPress=${press} />` : html`<button class="button" disabled=${busy.value} onClick=${press}>${label}</button>`}${problem.value && html`<${Notice} problem=${problem.value} />`}`;
};

const Rate = ({ order, path, body, label, day, onOrder }) => {
  const [rate, on, source] = [useSignal(''), useSignal(day ?? today()), useSignal('')];
  const { send, problem, busy } = useSending();
  const slots = { currency: order.currency, home: order.state_tax_in };
  const press = async (event) => {
    event.preventDefault();
    const exchange = { rate: decimal(rate.value), day: on.value, source: source.value };
    const after = await send(path, { ...body, exchange });
    if (after) onOrder(after);
  };
  return html`<form class="money-form" onSubmit=${press}><p class="quiet money-form__lead">${t('exchange.lead', slots)}</p>
    <${TextField} label=${t('exchange.rate', slots)} inputmode="decimal" required autocomplete="off" maxlength="25" ...${typed(rate)} />
    <${TextField} label=${t('exchange.day')} type="date" required max=${today()} ...${typed(on)} />
    <${TextField} label=${t('exchange.source')} hint=${t('exchange.source-hint')} required autocomplete="off" maxlength="200" ...${typed(source)} />
    <button class="button button--heavy" disabled=${busy.value}>${label}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

/** `day`: the tax point, where it is not today. `says`: what the bill comes to, where it is written on a second press alone. */
export const WriteBill = ({ order, label, ...rest }) =>
  order.state_tax_in
    ? html`<${Folded} label=${`${label} …`}>${() => html`<${Rate} order=${order} label=${label} ...${rest} />`}<//>`
    : html`<${Plain} label=${label} ...${rest} />`;
