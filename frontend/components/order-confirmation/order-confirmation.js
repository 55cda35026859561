// Confirming the order: what lacks yet, each with what to do; once it is confirmed, by whom, and its papers.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may, pricesShown } from '../../state/session.js';
import { SHEETS, dayAndTime } from '../../format.js';
import { useSending } from '../../state/sending.js';
import { TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

const Papers = ({ papers }) => pricesShown.value && html`<p class="document__papers">
  ${papers.map(({ language, size, url, own }) => html`<a key=${language + size} target="_blank" rel="noopener" href=${url}>${t('confirm.paper')}: ${t(`language.${language}`)}, ${SHEETS[size]}${own ? ` (${t('confirm.own')})` : ''}</a>`)}</p>`;

const Confirmed = ({ one, now }) => html`<div><p>${t(now ? 'confirm.by' : 'confirm.earlier', { by: one.by_name, at: dayAndTime(one.at), letter: one.letter })}</p>
  ${one.why && html`<p class="quiet">${t('confirm.why-said', { why: one.why })}</p>`}<${Papers} papers=${one.papers} /></div>`;

/** The manager's reason is asked for once he has been told that there is another order for that car. */
const Confirm = ({ order, onOrder }) => {
  const why = useSignal('');
  const { send, problem, busy } = useSending();
  const second = useSignal(false);
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/orders/${order.number}/confirmation`, { why: why.value });
    if (after) onOrder(after);
    else second.value ||= Boolean(problem.value?.errors?.why);
  };
  return html`<form onSubmit=${press}>
    ${second.value && html`<${TextField} label=${t('confirm.why')} hint=${t('confirm.why-hint')} error=${problem.value?.errors?.why?.[0]} autocomplete="off" value=${why.value} onWrite=${(text) => (why.value = text)} />`}
    <button class="button button--heavy" disabled=${busy.value}>${t('confirm.do')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

export const OrderConfirmation = ({ order, onOrder }) => {
  const now = order.confirmed && order.confirmations.find(({ letter }) => letter === order.letter);
  return html`<section class="card" aria-labelledby="confirmation-title"><h2 id="confirmation-title">${t('confirm.title')}</h2>
    ${now ? html`<${Confirmed} one=${now} now=${true} />`
    : order.lacks.length ? html`<p>${t('confirm.lacks')}</p><ul class="gates">${order.lacks.map((lack) => html`<li key=${lack.what + lack.rule} class="gate gate--shut">${lack.says}</li>`)}</ul>`
    : html`<p>${t('confirm.nothing')}</p>${may('confirm') && html`<${Confirm} order=${order} onOrder=${onOrder} />`}`}
    ${order.confirmations.filter((one) => one !== now).map((one) => html`<${Confirmed} key=${one.letter} one=${one} now=${false} />`)}</section>`;
};
