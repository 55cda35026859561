// A shell's stages as a bar, and beneath it what may still change on it and where that hardens next.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { day } from '../../format.js';

const pointName = (route, point) => say(route.find(({ stage }) => stage === point)?.label) || (point === 'despatched' ? t('change.despatched') : point);

const StageBar = ({ route }) => html`<ol class="stage-bar">${route.filter(({ work }) => work !== 'none').map((one) => html`<li key=${one.stage} class=${`stage-bar__one stage-bar__one--${one.stands}`}
  aria-current=${one.stands === 'at' ? 'step' : undefined}><b>${say(one.label)}</b><small>${one.stands === 'ahead' && one.start ? day(one.start) : t(`floor.${one.stands}`)}</small></li>`)}</ol>`;

const Row = ({ change, route }) => html`<tr class=${`may-change may-change--${change.taken}`}><th scope="row">${say(change.label)}</th><td><b>${t(`change.${change.taken}`)}</b></td>
  <td>${change.next && t('change.next', { stage: pointName(route, change.next), taken: t(`change.${change.next_taken}`) })}</td></tr>`;

export const FreezeLine = ({ shell }) => html`<div class="freeze-line"><${StageBar} route=${shell.route} />
  <p class="quiet">${t(shell.changes.length ? 'change.lead' : 'change.none')}</p>
  <table class="ruled"><tbody>${shell.changes.map((change) => html`<${Row} key=${change.id} change=${change} route=${shell.route} />`)}</tbody></table></div>`;
