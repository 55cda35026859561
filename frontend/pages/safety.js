// Safety faults: what stands and what it stops, whom to write to, what was lifted and why; the manager says that something is at fault.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { may } from '../state/session.js';
import { useReading } from '../state/reading.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';
import { Folded } from '../components/folded/folded.js';
import { FaultCard } from '../components/safety/fault-card.js';
import { SayFault } from '../components/safety/say-fault.js';

const Cards = ({ faults, onDone }) => faults.map((one) => html`<${FaultCard} key=${one.id} fault=${one} onDone=${onDone} />`);

export const Safety = () => {
  const { body, problem, again } = useReading('/api/safety-faults');
  const turn = useSignal(0);
  const done = () => {
    turn.value += 1;
    again();
  };
  const faults = body.value?.faults ?? [];
  const [stand, lifted] = [faults.filter((one) => !one.lifted), faults.filter((one) => one.lifted)];
  return html`<div class="work safety"><p class="work__back"><${Link} to="/tools">${t('tools.title')}<//></p><h1>${t('safety.title')}</h1><p class="quiet">${t('safety.lead')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${body.value && html`${may('say-safety') && html`<${Folded} key=${turn.value} label=${t('safety.say')} heavy>${(close) => html`<${SayFault} onDone=${done} onLeave=${close} />`}<//>`}
      ${stand.length ? html`<${Cards} faults=${stand} onDone=${done} />` : html`<p class="safety__none">${t('safety.none')}</p>`}
      ${lifted.length > 0 && html`<section class="card" aria-labelledby="lifted"><h2 id="lifted">${t('safety.lifted')}</h2><${Cards} faults=${lifted} onDone=${done} /></section>`}`}</div>`;
};
