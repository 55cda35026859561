// Confirming the order: what lacks yet, each with what to do; once it is confirmed, by whom, and its papers.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { isDealer, may, pricesShown } from '../../state/session.js';
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

const standsOf = (open) => (open === null ? 'later' : open ? 'open' : 'shut');

/** The gate of what lacks; what has none stands by itself. */
const GATE_OF = { deposit: 'deposit', 'deposit-day': 'deposit', specification: 'specification', approval: 'approvals' };

const Gate = ({ gate, open, lacks }) => html`<li class=${`gate gate--${standsOf(open)}`}><b>${t(`gate.${gate}`)}</b> ${t(`gate.${standsOf(open)}`)}${lacks.map(({ what, rule, says }) => html`<br key=${what + rule} />${says}`)}</li>`;

/** Each gate with what to do for it, then what lacks besides. */
const Before = ({ order: { gates, lacks } }) => {
  const gateOf = ({ what }) => gates.find(({ gate }) => gate === GATE_OF[what]);
  return html`<h3 id="gates-title">${t('gate.title')}</h3>
    <ul class="gates">${gates.map((one) => html`<${Gate} key=${one.gate} ...${one} lacks=${lacks.filter((lack) => gateOf(lack) === one)} />`)}
      ${lacks.filter((lack) => !gateOf(lack)).map(({ what, rule, says }) => html`<li key=${what + rule} class="gate gate--shut">${says}</li>`)}</ul><p class="quiet">${t('gate.lead')}</p>`;
};

export const OrderConfirmation = ({ order, onOrder }) => {
  const now = order.confirmed && order.confirmations.find(({ letter }) => letter === order.letter);
  return html`<section class="card" aria-labelledby="confirmation-title"><h2 id="confirmation-title">${t('confirm.title')}</h2>
    ${now ? html`<${Confirmed} one=${now} now=${true} />` : html`<${Before} order=${order} />${order.lacks.length === 0 && html`<p>${t(isDealer.value ? 'confirm.nothing-dealer' : 'confirm.nothing')}</p>${may('confirm') && html`<${Confirm} order=${order} onOrder=${onOrder} />`}`}`}
    ${order.confirmations.filter((one) => one !== now).map((one) => html`<${Confirmed} key=${one.letter} one=${one} now=${false} />`)}</section>`;
};
