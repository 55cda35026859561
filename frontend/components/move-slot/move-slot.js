// Gives a shell another slot: first every promise that would move is shown, then exactly that is done, or nothing.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { useSending } from '../../state/sending.js';
import { TextField, TickField } from '../field/field.js';
import { Moves } from '../moves/moves.js';
import { Notice } from '../notice/notice.js';

/** `slot`: the one it has; `to`: a day it was put on by hand, for which what moves is shown at once. */
export const MoveSlot = ({ number, shell, slot, to = null, onMoved }) => {
  const [on, swap, leave, shown] = [useSignal(to ?? slot), useSignal(true), useSignal(false), useSignal(null)];
  const { send, problem, busy } = useSending();
  const wanted = () => ({ shell, day: leave.value ? null : on.value, swap: swap.value });
  const forget = (write) => (value) => {
    write(value);
    shown.value = null;
  };
  const look = async (event) => {
    event?.preventDefault();
    shown.value = await send(`/api/orders/${number}/slots/what-moves`, wanted());
  };
  const move = async () => {
    const after = await send(`/api/orders/${number}/slots`, { ...wanted(), token: shown.value.token });
    if (!after) return void (shown.value = null);
    onMoved(after);
  };
  useEffect(() => {
    if (!to) return;
    on.value = to;
    leave.value = false;
    look();
  }, [to]);
  return html`<form class="money-form" onSubmit=${look}>
    <${TextField} label=${t('date.to-day')} type="date" required=${!leave.value} disabled=${leave.value} value=${on.value} onWrite=${forget((text) => (on.value = text))} />
    <${TickField} label=${t('date.swap')} value=${swap.value} onWrite=${forget((value) => (swap.value = value))} />
    <${TickField} label=${t('date.leave')} value=${leave.value} onWrite=${forget((value) => (leave.value = value))} />
    <button class="button" disabled=${busy.value}>${t('date.look')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${shown.value && html`<${Moves} proposal=${shown.value}>${may('move-slots') ? html`<button type="button" class="button button--heavy" disabled=${busy.value} onClick=${move}>${t('date.move')}</button>` : html`<p class="quiet">${t('calendar.office-moves')}</p>`}<//>`}</form>`;
};
