// A better order of the next weeks' slots: sought when asked for, every promise before and after, and then exactly that or nothing.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { problemOf, useSending } from '../../state/sending.js';
import { get } from '../../api.js';
import { Link } from '../link/link.js';
import { SelectField } from '../field/field.js';
import { Moves } from '../moves/moves.js';
import { Notice } from '../notice/notice.js';

const SPANS = ['1', '2', '3', '4', '6', '8'];

const Agree = ({ busy, onMove }) =>
  may('move-slots') ? html`<button type="button" class="button button--heavy" disabled=${busy} onClick=${onMove}>${t('better.move')}</button>` : html`<p class="quiet">${t('calendar.office-moves')}</p>`;

const Found = ({ found, busy, onMove }) => html`<p role="status">${found.says}</p>
  ${found.stays.map((one) => html`<p key=${`${one.number} ${one.shell}`} class="quiet">${one.says}</p>`)}
  ${found.proposal.moves.length > 0 && html`<${Moves} proposal=${found.proposal}><${Agree} busy=${busy} onMove=${onMove} /><//>`}`;

const useSearch = (weeks) => {
  const [found, failed, seeking] = [useSignal(null), useSignal(null), useSignal(false)];
  const seek = async (event) => {
    event?.preventDefault();
    seeking.value = true;
    try {
      found.value = (await get(`/api/better-weeks?weeks=${weeks.value}`)).body;
      failed.value = null;
    } catch (error) {
      failed.value = problemOf(error);
    } finally {
      seeking.value = false;
    }
  };
  return { found, failed, seeking, seek };
};

/** `onMoved`: the plan is another one now. */
export const BetterWeeks = ({ onMoved }) => {
  const [weeks, done] = [useSignal('4'), useSignal(false)];
  const { found, failed, seeking, seek } = useSearch(weeks);
  const { send, problem, busy } = useSending();
  const look = (event) => {
    done.value = false;
    return seek(event);
  };
  const move = async () => {
    const after = await send('/api/better-weeks', { weeks: Number(weeks.value), token: found.value.proposal.token });
    found.value = null;
    if (!after) return;
    done.value = true;
    onMoved();
  };
  const choose = (text) => {
    weeks.value = text;
    found.value = null;
  };
  return html`<section class="card better" aria-labelledby="better-title"><h2 id="better-title">${t('better.title')}</h2><p class="quiet">${t('better.lead')}</p>
    <form class="better__ask" onSubmit=${look}><${SelectField} label=${t('better.weeks')} options=${SPANS.map((one) => [one, one])} value=${weeks.value} onWrite=${choose} />
      <button class="button" disabled=${seeking.value}>${t(seeking.value ? 'waiting' : 'better.look')}</button></form>
    ${(failed.value || problem.value) && html`<${Notice} problem=${failed.value ?? problem.value} />`}
    ${done.value && html`<p role="status">${t('better.done')}</p>`}
    ${found.value && html`<${Found} found=${found.value} busy=${busy.value} onMove=${move} />`}
    ${may('see-outlook') && html`<p class="better__foot"><${Link} class="button" to="/outlook">${t('outlook.title')}<//></p>`}</section>`;
};
