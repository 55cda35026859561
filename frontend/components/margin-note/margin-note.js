// The note at the foot of the sheet. A single line about the choice looked at, until one asks: then it opens upwards, over
// the sheet, and says why and what instead. Nothing on the sheet moves when it does.
import { useEffect, useRef } from 'preact/hooks';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { optionOf, optionLabel, choiceLabel } from '../../state/book.js';
import { pricesShown } from '../../state/session.js';
import { take, clear, look, lookAway, undo } from '../../state/edit.js';
import { shownOption, wordOf } from '../../state/shown.js';
import { difference, money } from '../../format.js';
import { Depends, anyDepends } from '../reasons/reasons.js';
import { Refused, Waiting, Why } from '../advice/advice.js';

/** Of one shell, before tax. Nothing is said of a price while the answer to what is written now is on its way. */
const priceText = (job, shown) => {
  const currency = job.answer.value?.currency;
  if (!job.fresh.value) return '';
  if (!pricesShown.value || !shown.priced || !currency || !shown.priceFrom) return '';
  if (shown.priceFrom.worked_out === false) return t('price.not-worked-out');
  if (shown.priceFrom.amount === null) return t('price.not-priced-ask');
  const from = t('price.from', { amount: money(shown.priceFrom.amount, currency) });
  return `${shown.difference ? `${difference(shown.difference, currency)} · ` : ''}${from} ${t('totals.before-tax')}`;
};

const shownOf = (job, { option, choice }) =>
  shownOption(optionOf(option), job.line.value.answers[option], job.answer.value, job.fresh.value).find((row) => row.id === choice);

const stateText = (job, shown) => [t(wordOf(shown)), priceText(job, shown)].filter(Boolean).join(' · ');

const isMine = (job, { option, choice }) => job.line.value.answers[option]?.choice === choice;

const Deeds = ({ job, option, shown }) => html`<div class="note__deeds">
  ${shown.state !== 'closed' && !isMine(job, { option, choice: shown.id }) && html`<button class="button" onClick=${() => take(job, option, shown.id)}>${t('why.take')}</button>`}
  ${isMine(job, { option, choice: shown.id }) && html`<button class="button" onClick=${() => clear(job, option)}>${t('choice.clear')}</button>`}
</div>`;

/** The last resort stands last, after the reasons and what could be had instead. */
const AllTheSame = ({ job, option, choice }) => html`<p class="note__last"><button class="plain" onClick=${() => take(job, option, choice)}>${t('why.take-all-the-same')}</button>
  <span class="quiet">${t('why.take-all-the-same-means')}</span></p>`;

const AboutChoice = ({ job, looking, shown }) => {
  const { option, choice } = looking;
  const answer = job.answer.value;
  if (shown.state === 'closed' || shown.causes.length) {
    const own = isMine(job, looking);
    return html`<${Refused} job=${job} wish=${own ? null : { option, choice }} causes=${own ? answer.causes : shown.causes} capped=${answer?.capped} />
      ${!own && html`<${AllTheSame} job=${job} option=${option} choice=${choice} />`}`;
  }
  if (shown.taken && shown.state !== 'chosen') return html`<${Why} job=${job} option=${option} otherwise=${t(`why.${shown.state}`)} />`;
  if (!anyDepends(shown.depends)) return html`<p>${t(`why.${shown.state}`)}</p>`;
  return html`<p>${t('why.depends')}</p><${Depends} depends=${shown.depends} />`;
};

const AboutAll = ({ job }) => {
  const answer = job.answer.value;
  return answer?.verdict === 'cant'
    ? html`<${Refused} job=${job} wish=${null} causes=${answer.causes} capped=${answer.capped} />`
    : html`<${Waiting} job=${job} depends=${answer?.depends} down=${answer?.tools_down} />`;
};

const titleOf = (job, looking) => {
  if (looking) return `${optionLabel(looking.option)}: ${choiceLabel(looking.option, looking.choice)}`;
  return t(job.answer.value?.verdict === 'cant' ? 'advice.title' : 'advice.title-once');
};

/** Escape, or the cross, leads back to where one asked. */
const useComing = (job, sheet) =>
  useEffect(() => {
    if (!job.jump || !sheet.current) return;
    sheet.current.focus({ preventScroll: true });
  }, [job.looking.value, job.asked.value]);

const shut = (job) => {
  const looking = job.looking.value;
  const back = job.jump;
  lookAway(job);
  job.jump = false;
  if (back && looking) document.querySelector(`[data-choice="${looking.option}.${looking.choice}"]`)?.focus();
};

/** From wherever the cursor stands. */
const useEscape = (job) =>
  useEffect(() => {
    const press = (event) => event.key === 'Escape' && !event.defaultPrevented && !document.querySelector('dialog[open]') && shut(job);
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  }, [job]);

const Sheet = ({ job }) => {
  const sheet = useRef(null);
  const looking = job.looking.value;
  const shown = looking && shownOf(job, looking);
  useComing(job, sheet);
  useEscape(job);
  return html`<div class="note__sheet" ref=${sheet} tabindex="-1" role="group" aria-labelledby="note-title">
    <div class="note__head"><h3 id="note-title">${titleOf(job, looking)}</h3>
      ${looking && html`<p class="note__state">${stateText(job, shown)}</p><${Deeds} job=${job} option=${looking.option} shown=${shown} />`}
      <button class="plain note__close" aria-label=${t('note.close')} onClick=${() => shut(job)}>×</button></div>
    <div class="note__why" tabindex="0" role="group" aria-label=${t('why.label')}>
      ${looking ? html`<${AboutChoice} key=${`${looking.option}.${looking.choice}`} job=${job} looking=${looking} shown=${shown} />` : html`<${AboutAll} job=${job} />`}</div>
  </div>`;
};

const Taken = ({ job }) => html`<p class="note__line" role="status">${t('advice.taken', { changes: job.taken.value })}</p>
  <button class="plain" onClick=${() => ((job.taken.value = null), undo(job))}>${t('deeds.undo')}</button>`;

const Strip = ({ job }) => {
  const looking = job.looking.value;
  if (job.taken.value) return html`<${Taken} job=${job} />`;
  if (!looking) return html`<p class="note__line quiet">${t('note.empty')}</p>`;
  return html`<p class="note__line"><b>${titleOf(job, looking)}</b> ${stateText(job, shownOf(job, looking))}</p>
    <button class="plain" aria-expanded=${job.asked.value} onClick=${() => ((job.jump = true), look(job, looking.option, looking.choice, !job.asked.value))}>${t('note.ask')}</button>`;
};

export const MarginNote = ({ job }) => html`<aside class=${`note ${job.taken.value ? 'is-taken' : ''}`} aria-label=${t('note.label')}>
  <div class="note__strip"><${Strip} job=${job} /></div>
  ${job.asked.value && html`<${Sheet} job=${job} />`}
</aside>`;
