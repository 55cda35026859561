// Changes on one shell after its order was confirmed: what may still be asked for, what it would be, and its change notes.
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { may } from '../state/session.js';
import { useReading } from '../state/reading.js';
import { isOver, serialText } from '../state/shells.js';
import { go } from '../state/route.js';
import { CancelShell } from '../components/cancel-shell/cancel-shell.js';
import { ChangeForm } from '../components/change-form/change-form.js';
import { ChangeNote } from '../components/change-note/change-note.js';
import { Fact } from '../components/fact/fact.js';
import { forWhom } from '../components/floor-today/floor-today.js';
import { Link } from '../components/link/link.js';
import { Missing } from './not-found.js';

const Head = ({ shell }) => html`<dl class="cells cells--issued"><${Fact} label=${t('order.shell', { place: shell.shell })} large=${true}>${serialText(shell)}<//>
  <${Fact} label=${t('order.number')}>${shell.letter ? html`<${Link} to=${`/orders/${shell.order}`}>${shell.order}<//>` : forWhom(shell)}<//><${Fact} label=${t('shell-change.shell')}>${say(shell.name)}<//>
  <${Fact} label=${t('cell.state')}><span class=${`standing standing--${shell.state}`}>${t(`shell.${shell.state}`)}</span> ${shell.stage ? say(shell.stage) : ''}<//></dl>`;

export const ShellChanges = ({ shell: id }) => {
  const { body, problem, again } = useReading(`/api/shells/${id}/change-notes`);
  if (problem.value || !body.value) return html`<${Missing} problem=${problem.value} />`;
  const take = (after) => (body.value = after);
  const { shell, notes } = body.value;
  const waits = notes.some(({ state }) => state.startsWith('waits'));
  // The shell that is cancelled may be of stock from then on; what was written of it stands on the page of its order.
  const cancelled = () => (shell.letter ? go(`/orders/${shell.order}`) : again());
  return html`<div class="issued shell-changes"><h1>${t('shell-change.heading')}</h1><${Head} shell=${shell} />
    <section aria-labelledby="notes-title"><h2 id="notes-title">${t('shell-change.notes')}</h2>${notes.length ? html`<ul class="change-notes">${notes.map((note) => html`<${ChangeNote} key=${note.number + note.state} note=${note} order=${shell.order} onShell=${take} />`)}</ul>` : html`<p class="quiet">${t('shell-change.none')}</p>`}</section>
    ${!waits && shell.letter && may('draw-changes') && !isOver(shell) && html`<${ChangeForm} key=${notes.length} shell=${shell} onShell=${take} />`}<${CancelShell} key=${shell.state} shell=${shell} onCancelled=${cancelled} /></div>`;
};
