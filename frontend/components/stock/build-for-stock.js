// A line of a quotation built for the firm's own stock, without its customer and donor car.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { day } from '../../format.js';
import { useSending } from '../../state/sending.js';
import { SelectField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

/** `lines`: how many the revision has. */
export const BuildForStock = ({ number, letter, lines }) => {
  const [line, made] = [useSignal('1'), useSignal(null)];
  const { send, problem, busy } = useSending();
  const press = async () => {
    made.value = null;
    const told = await send('/api/stock-shells', { number, letter, line: Number(line.value) });
    if (told) made.value = told.shells.toSorted((one, other) => other.id - one.id)[0];
  };
  const numbers = Array.from({ length: lines }, (_, at) => [String(at + 1), String(at + 1)]);
  return html`<div class="acts copies">${lines > 1 && html`<${SelectField} label=${t('stock.line')} options=${numbers} value=${line.value} onWrite=${(text) => (line.value = text)} />`}
    <button class="button" disabled=${busy.value} onClick=${press}>${t('stock.build')}</button></div>
    <p class="quiet">${t('stock.build-means')}</p>
    ${made.value && html`<p role="status"><b>${t('stock.made', { number: made.value.number, day: day(made.value.plan.slot) })}</b></p>`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}`;
};
