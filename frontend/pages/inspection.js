// The inspection of one shell, from its serial: what is not standard, what is still to be read, point after point, the gap
// map, the verdict. Readings that could not be sent stay on the tablet and are shown as unsent, as all that is entered there.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { may } from '../state/session.js';
import { SHEETS } from '../format.js';
import { useReading } from '../state/reading.js';
import { useSigners } from '../state/signers.js';
import { taken, useTaking } from '../state/readings.js';
import { delivered } from '../state/unsent.js';
import { Coat } from '../components/inspection/coat.js';
import { Failures } from '../components/inspection/failures.js';
import { GapMap } from '../components/inspection/gap-map.js';
import { Point } from '../components/inspection/point.js';
import { Points } from '../components/inspection/points.js';
import { VerdictCard } from '../components/inspection/verdict.js';
import { Live } from '../components/live/live.js';
import { Notice } from '../components/notice/notice.js';
import { UnsentOf } from '../components/unsent/unsent.js';

const NotStandard = ({ one }) => (one.departures.length === 0 ? html`<p class="not-standard not-standard--none">${t('inspect.standard')}</p>` : html`<section class="not-standard" aria-labelledby="not-standard"><h2 id="not-standard">▲ ${t('inspect.not-standard')} ▲</h2>
  <ul>${one.departures.map((each) => html`<li key=${each.option}><b>${each.option}: ${each.choice}</b> <span>${t('inspect.usual', { usual: each.usual })}</span></li>`)}</ul></section>`);

const Head = ({ one }) => html`<header class="inspect-head"><h1>${one.serial}</h1><p><b>${say(one.name)}</b><br /><span class="quiet">${t('inspect.of', { order: one.order })}${one.sheet ? ` · ${t('inspect.sheet', { revision: one.sheet })}` : ''}</span></p>
  ${one.reworks.length > 0 && html`<p class="inspect-stop">${t('inspect.in-rework', { what: one.reworks.map(({ says }) => says).join('; ') })}</p>`}<${NotStandard} one=${one} /></header>`;

const Phases = ({ one, phase, onPhase }) => html`<div class="inspect-phases" role="group" aria-label=${t('inspect.phases')}>${one.phases.filter(({ of }) => of).map((each) => html`<button type="button" key=${each.phase} class="inspect-phase" aria-pressed=${each.phase === phase} onClick=${() => onPhase(each.phase)}>
  <b>${t(`inspect.phase.${each.phase}`)}</b> <span>${each.passed ? t(`inspect.verdict.${each.passed.verdict}`) : t('inspect.left-of', { left: each.unread, of: each.of })}</span></button>`)}</div>`;

const Papers = ({ one }) => html`<p class="inspect-papers">${Object.entries(SHEETS).map(([size, name]) => html`<a key=${size} class="button" href=${`/api/shells/${one.shell}/inspection/record?size=${size}`} target="_blank" rel="noopener">${t('inspect.record', { size: name })}</a>`)}</p>`;

/** What is still to be read first after the one at hand, else from the start; null: nothing. */
const nextAfter = (subjects, id, unsent) => {
  const at = subjects.findIndex((one) => one.id === id);
  const open = (one) => one.mark === 'unread' && !unsent.has(one.id) && one.id !== id;
  return subjects.slice(at + 1).find(open) ?? subjects.slice(0, Math.max(at, 0)).find(open) ?? null;
};

const useShell = (serial) => {
  const found = useReading(`/api/inspections?${new URLSearchParams({ serial })}`);
  const shell = found.body.value?.inspections[0]?.shell;
  const read = useReading(shell ? `/api/shells/${shell}/inspection` : null, delivered.value - taken.value);
  return { one: read.body, problem: found.problem.value ?? read.problem.value, again: read.again };
};

const Body = ({ one, signers, onShell, again }) => {
  const [phase, picked, said] = [useSignal(one.phase), useSignal(null), useSignal('')];
  const { unsent, take: takeDown, problem } = useTaking(one, onShell);
  const subjects = one.subjects.filter((each) => each.phase === phase.value);
  const subject = subjects.find(({ id }) => id === picked.value) ?? nextAfter(subjects, null, unsent) ?? subjects[0];
  const shown = one.phases.find((each) => each.phase === phase.value);
  const pick = (id) => ((picked.value = id), document.getElementById('inspect-point')?.scrollIntoView({ block: 'center' }));
  const take = (value, gauge) => {
    said.value = `${subject.label || subject.says}: ${value} ${subject.unit}`;
    void takeDown(subject, value, gauge);
    picked.value = nextAfter(subjects, subject.id, new Map([...unsent, [subject.id, {}]]))?.id ?? subject.id;
  };
  const step = (by) => (picked.value = subjects.at((subjects.indexOf(subject) + by) % subjects.length).id);
  return html`<${Phases} one=${one} phase=${phase.value} onPhase=${(name) => ((phase.value = name), (picked.value = null))} /><${Live} text=${said.value} /><${UnsentOf} shell=${one.shell} />
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    <div class="inspect-columns"><div>${subject && html`<${Point} key=${subject.id} one=${one} subject=${subject} unsent=${unsent.get(subject.id)} onTake=${take} onStep=${step} onShell=${onShell} />`}</div>
      <div><${Failures} one=${one} phase=${phase.value} onPick=${pick} onAsked=${again} /><${Points} subjects=${subjects} picked=${subject?.id} unsent=${unsent} onPick=${pick} /></div></div>
    <${GapMap} drawing=${one.drawing} />
    <div class="inspect-ends">${phase.value === 'coated' && html`<${Coat} one=${one} onShell=${onShell} />`}<${VerdictCard} one=${one} phase=${shown} signers=${signers} unsent=${unsent.size} onShell=${onShell} /></div>
    ${may('see-inspections') && html`<${Papers} one=${one} />`}`;
};

export const InspectionPage = ({ serial }) => {
  const { one, problem, again } = useShell(serial);
  const signers = useSigners();
  return html`<div class="work floor inspection">${problem && html`<h1>${serial}</h1><${Notice} problem=${problem} />`}
    ${one.value && html`<${Head} one=${one.value} /><${Body} key=${one.value.shell} one=${one.value} signers=${signers} onShell=${(after) => (one.value = after)} again=${again} />`}</div>`;
};
