// Concessions that wait, for whoever may answer them: each with its shell. Shown only where there are any.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { useFresh } from '../../state/fresh.js';
import { useReading } from '../../state/reading.js';
import { Notice } from '../notice/notice.js';
import { AnswerConcession, Concession } from '../concessions/concessions.js';

const shellText = (one) => t('concession.of', { serial: one.serial ?? t('order.no-serial'), order: one.order });

export const WaitingConcessions = () => {
  const { body, problem, again } = useReading('/api/concessions');
  useFresh('/api/concessions', body);
  if (problem.value) return html`<${Notice} problem=${problem.value} />`;
  const waiting = body.value?.concessions ?? [];
  return waiting.length > 0 && html`<section class="card waiting-concessions" aria-labelledby="waiting-concessions"><h2 id="waiting-concessions">${t('concession.title')}</h2>
    <p class="quiet">${t('concession.lead')}</p>
    <ul class="recorded">${waiting.map((one) => html`<${Concession} key=${one.id} one=${one}><span class="waiting-concessions__of">${shellText(one)} · ${say(one.name)}</span>
      <${AnswerConcession} shell=${one.shell} one=${one} onShell=${again} /><//>`)}</ul></section>`;
};
