// What a ticket stands for: whose shell, its dates, what it waits for, and the form that gives it another slot.
import { useEffect, useRef } from 'preact/hooks';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { day } from '../../format.js';
import { Link } from '../link/link.js';
import { MoveSlot } from '../move-slot/move-slot.js';
import { Stages, rangeText, weeksText } from '../promise/promise.js';
import { stateOf, whatOf } from './ticket.js';

const gateText = ({ gate, of, by }) => [of ? `${t(`date.gate.${gate}`)} ${of}` : t(`date.gate.${gate}`), by && t('date.by', { day: day(by) })].filter(Boolean).join(' ');

const Waits = ({ waits }) => waits.length > 0 && html`<h3>${t('calendar.waits')}</h3><ul class="gates">${waits.map((gate) => html`<li key=${gate.gate + gate.of} class="gate gate--shut">${gateText(gate)}</li>`)}</ul>`;

/** `to`: a day on which it was put; `onClose` puts it back. */
export const TicketSheet = ({ ticket, to, onMoved, onClose }) => {
  const head = useRef(null);
  const title = t('calendar.sheet', { number: ticket.number, shell: ticket.shell });
  useEffect(() => {
    head.current?.focus({ preventScroll: true });
    head.current?.closest('section').scrollIntoView({ block: 'nearest' });
  }, [ticket.number, ticket.shell, to]);
  const away = (event) => event.key === 'Escape' && onClose();
  return html`<section class="card ticket-sheet" aria-label=${title} onKeyDown=${away}>
    <div class="ticket-sheet__head"><h2 tabindex="-1" ref=${head}>${title}</h2><button type="button" class="button" onClick=${onClose}>${t('calendar.close')}</button></div>
    <div class="ticket-sheet__body"><div>
      <p><b>${ticket.customer}</b> · ${whatOf(ticket)} · <span class=${`stage stage--${{ late: 'refused', waits: 'waiting', begun: 'granted', planned: 'unasked' }[stateOf(ticket)]}`}>${t(`calendar.state-${stateOf(ticket)}`)}</span></p>
      <p class="promise__range"><b>${rangeText(ticket.promise)}</b> <small>${weeksText(ticket.promise)}</small></p>
      <p>${t('date.slot', { day: day(ticket.promise.slot) })}${may('read-orders') ? html` · <${Link} to=${`/orders/${ticket.number}`}>${t('calendar.to-order')}<//>` : ''}</p>
      ${ticket.late && html`<p class="payment__says">${t('calendar.late-says')}</p>`}<${Waits} waits=${ticket.waits} /></div>
      <${Stages} steps=${ticket.promise.steps} /></div>
    ${ticket.begun ? html`<p class="quiet">${t('calendar.begun-says')}</p>` : html`<${MoveSlot} key=${`${ticket.number}/${ticket.shell}/${ticket.promise.slot}`} number=${ticket.number} shell=${ticket.shell} slot=${ticket.promise.slot} to=${to} onMoved=${onMoved} />`}</section>`;
};
