// A big keypad with the decimal key of the reader's country. What is typed starts empty: nothing is filled in for anybody.
import { html } from '../../html.js';
import { decimalKey } from '../../format.js';
import { t } from '../../state/language.js';

/** What may stand there: an optional minus, digits, one decimal mark. Kept with a point, whatever mark is shown. */
export const taken = (text) => text.replace(/,/g, '.').replace(/−/g, '-').replace(/[^\d.-]/g, '').replace(/(?!^)-/g, '').replace(/(\..*)\./g, '$1').slice(0, 10);

const ROWS = ['7', '8', '9', '4', '5', '6', '1', '2', '3'];

const shown = (text) => text.replace('.', decimalKey()).replace('-', '−');

/** `value`: with a decimal point; `onWrite(text)`; `onEnter`: the reading is complete. */
export const Keypad = ({ id, label, value, unit, minus, whole, onWrite, onEnter }) => {
  const add = (mark) => onWrite(taken(value + mark));
  const turn = () => onWrite(value.startsWith('-') ? value.slice(1) : `-${value}`);
  const press = (event) => event.key === 'Enter' && (event.preventDefault(), onEnter());
  return html`<div class="keypad">
    <div class="keypad__shown"><label class="unseen" for=${id}>${label}</label>
      <input id=${id} inputmode="none" autocomplete="off" value=${shown(value)} onInput=${(event) => onWrite(taken(event.target.value))} onKeyDown=${press} /><span>${unit}</span></div>
    <div class="keypad__keys" role="group" aria-label=${t('inspect.keys')}>
      ${ROWS.map((mark) => html`<button type="button" key=${mark} class="keypad__key" onClick=${() => add(mark)}>${mark}</button>`)}
      ${whole ? html`<span></span>` : html`<button type="button" class="keypad__key" aria-label=${t('inspect.decimal')} onClick=${() => add('.')}>${decimalKey()}</button>`}
      <button type="button" class="keypad__key" onClick=${() => add('0')}>0</button>
      <button type="button" class="keypad__key" aria-label=${t('inspect.back')} onClick=${() => onWrite(value.slice(0, -1))}>⌫</button>
      ${minus && html`<button type="button" class="keypad__key keypad__key--wide" onClick=${turn}>${t('inspect.minus')}</button>`}
    </div></div>`;
};
