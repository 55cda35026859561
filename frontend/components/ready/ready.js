// When the shell is ready: the figure of the paper, in working days after the gates. No day of a calendar is made here.
import { html } from '../../html.js';
import { t } from '../../state/language.js';

export const readyText = (ready, complete) => (ready ? t(complete ? 'ready.range' : 'ready.so-far', { from: ready.from_days, to: ready.to_days }) : '');
export const gatesText = (ready) => t('ready.after', { gates: ready.gates.map((gate) => t(`ready.gate.${gate}`)).join(', ') });

/** `answer`: {verdict, complete, ready}. */
export const Ready = ({ answer }) => {
  if (!answer?.ready) return html`<p class="quiet">${t(answer?.verdict === 'cant' ? 'ready.cant' : 'ready.none')}</p>`;
  return html`<p class="ready__range">${readyText(answer.ready, answer.complete)}</p><p class="ready__gates">${gatesText(answer.ready)}</p>`;
};
