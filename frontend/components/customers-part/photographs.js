// Photographs of a customer's part that came: taken with a tablet's camera or chosen, sent one by one, kept through a lost signal.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { sendFiles, uploadsTo } from '../../state/photographs.js';
import { TextField } from '../field/field.js';
import { Choose, Going } from '../photographs/photographs.js';

const altOf = ({ note, id }) => note || t('receipt.picture', { number: id });

export const PartPictures = ({ pictures }) => pictures.length > 0 && html`<ul class="receipt__pictures">${pictures.map((one) => html`<li key=${one.id}><a href=${one.url} target="_blank" rel="noopener"><img src=${one.small_url} alt=${altOf(one)} width="160" height="120" loading="lazy" /></a>${one.note && html`<small>${one.note}</small>`}</li>`)}</ul>`;

/** `onPart`: the part as it stands after each picture that arrived. */
export const AddPictures = ({ part, onPart }) => {
  const of = uploadsTo(`/api/parts/${part.tag}/photographs`, onPart);
  const note = useSignal('');
  const add = (files) => {
    sendFiles(of, files, { note: note.value.trim() });
    note.value = '';
  };
  return html`<${TextField} label=${t('photographs.note')} maxlength="200" autocomplete="off" value=${note.value} onWrite=${(text) => (note.value = text)} />
    <p class="photographs__buttons"><${Choose} label=${t('photographs.camera')} camera=${true} onFiles=${add} /> <${Choose} label=${t('photographs.choose')} scans=${false} onFiles=${add} /></p>
    <ul class="photographs__list">${of.going.value.map((one) => html`<${Going} key=${one.key} of=${of} one=${one} said=${one.note} />`)}</ul>`;
};
