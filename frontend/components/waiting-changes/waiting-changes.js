// Change notes that wait for the manager or for a signature, each with its shell. Shown only where there are any.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { useReading } from '../../state/reading.js';
import { Link } from '../link/link.js';
import { Notice } from '../notice/notice.js';
import { Changed } from '../weighed-change/weighed-change.js';

const One = ({ one }) => html`<li><b><${Link} to=${`/shells/${one.shell}/changes`}>${one.number}<//></b> <span class="standing">${t(`shell-change.state.${one.state}`)}</span>
  <br /><span class="quiet">${one.serial ?? t('order.no-serial')} · ${one.order} · ${say(one.name)}</span><${Changed} changes=${one.changes} place=${null} /><p>${one.why}</p></li>`;

export const WaitingChanges = () => {
  const { body, problem } = useReading('/api/change-notes');
  if (problem.value) return html`<${Notice} problem=${problem.value} />`;
  const waiting = body.value?.notes ?? [];
  return waiting.length > 0 && html`<section class="card" aria-labelledby="waiting-changes"><h2 id="waiting-changes">${t('shell-change.waiting')}</h2>
    <ul class="change-notes">${waiting.map((one) => html`<${One} key=${one.number} one=${one} />`)}</ul></section>`;
};
