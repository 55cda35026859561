// When one shell is ready: the figure of the paper, in working days after the gates. No day of a calendar is made here.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { listed } from '../../format.js';
import { backText } from '../reasons/reasons.js';

export const readyText = (ready) => (ready ? t('ready.range', { from: ready.from_days, to: ready.to_days }) : '');

/** Each with the day on which it is back; the stamp says which. */
const toolsText = (down) => down.map(({ tool }) => t('ready.gate.tool', { back: backText(tool, down) }));

export const gatesText = (ready, down = []) => {
  const gates = ready.gates.flatMap((gate) => (gate === 'tools' && down.length ? toolsText(down) : [t(`ready.gate.${gate}`)]));
  return t('ready.after', { gates: listed(gates) });
};

const meant = ({ ready, complete, tools_down: down }) => (complete ? gatesText(ready, down) : t('ready.so-far', { after: gatesText(ready, down) }));

/** `answer`: {verdict, complete, ready, tools_down}; `shells`: how many are quoted. */
export const Ready = ({ answer, shells = 1 }) => {
  if (!answer?.ready) return html`<p class="quiet">${t(answer?.verdict === 'cant' ? 'ready.cant' : 'ready.none')}</p>`;
  return html`<p class="ready__range">${readyText(answer.ready)}${shells > 1 && html` <small>${t('ready.one-of', { shells })}</small>`}</p>
    <p class="ready__gates">${meant(answer)}</p>`;
};
