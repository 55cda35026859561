// What the records know of a list of the packing: each line with where it comes from, ticked while the list has it.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { day } from '../../format.js';
import { TickField } from '../field/field.js';

/** The lines of a list as they are typed, without blanks. */
export const lines = (text) => text.split('\n').map((line) => line.trim()).filter(Boolean);

const without = (text, line) => text.split('\n').filter((one) => one.trim() !== line).join('\n');
const withLine = (text, line) => [...(text.trim() ? [text.trimEnd()] : []), line].join('\n');

/** What an empty list begins with: what is here for certain and built into nothing. */
export const begun = (proposals, into) => proposals.filter((one) => one.into === into && one.sure).map(({ line }) => line).join('\n');

const source = ({ origin, what, tag, day: on, count }) => t(`packing.from.${origin}`, { what: say(what), tag, day: day(on), count });

/** `text`: the list as it is typed; `onWrite`: with a line more or less, nothing else of it touched. */
export const Proposals = ({ proposals, text, onWrite }) =>
  proposals.length > 0 &&
  html`<fieldset class="packing__proposals"><legend>${t('packing.proposed')}</legend>${proposals.map((one) => html`<div key=${one.line}>
    <${TickField} label=${one.line} value=${lines(text).includes(one.line)} onWrite=${(taken) => onWrite((taken ? withLine : without)(text, one.line))} />
    <small class="quiet">${source(one)}</small></div>`)}</fieldset>`;
