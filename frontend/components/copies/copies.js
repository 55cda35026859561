// The same specification once more: beside this one, or so many times for the dealer's own stock. Nothing is ordered by it.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { isDealer, may } from '../../state/session.js';
import { useSending } from '../../state/sending.js';
import { go } from '../../state/route.js';
import { TextField } from '../field/field.js';
import { BuildForStock } from '../stock/build-for-stock.js';
import { Notice } from '../notice/notice.js';

/** As many as earn the discount for several with the demo's book; any number can be typed. */
const USUAL = '3';
const MOST = 1000;

const readCount = (text) => (/^\d{1,4}$/.test(text.trim()) && Number(text) >= 1 && Number(text) <= MOST ? Number(text) : null);

/** `lines`: how many the revision has. */
export const Copies = ({ number, letter, lines = 0 }) => {
  const typed = useSignal(USUAL);
  const count = readCount(typed.value);
  const { send, problem, busy } = useSending();
  const copy = async (body) => {
    const made = await send(`/api/quotations/${number}/revisions/${letter}/copies`, body);
    if (made) go(`/quotations/${made.number}`);
  };
  return html`<section class="card" aria-labelledby="copies-title"><h2 id="copies-title">${t('copy.title')}</h2><p class="quiet">${t('copy.lead')}</p>
    <div class="acts copies"><button class="button" disabled=${busy.value} onClick=${() => copy({})}>${t('copy.beside')}</button></div>
    ${isDealer.value && html`<div class="acts copies"><${TextField} label=${t('copy.count')} error=${count === null ? t('copy.count-wrong', { most: MOST }) : ''} inputmode="numeric" maxlength="4" autocomplete="off" value=${typed.value} onWrite=${(text) => (typed.value = text)} />
      <button class="button button--heavy" disabled=${busy.value || count === null} onClick=${() => copy({ for_stock: true, quantity: count })}>${t('copy.stock', { count: count ?? '…' })}</button></div>
      <p class="quiet">${t('copy.stock-means')}</p>`}
    ${may('build-stock') && lines > 0 && html`<${BuildForStock} number=${number} letter=${letter} lines=${lines} />`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</section>`;
};
