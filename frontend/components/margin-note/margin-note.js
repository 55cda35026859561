// The note at the foot of the sheet: about the choice looked at, why it stands as it does, and what can be done with it.
// Its height is fixed, so that nothing on the sheet moves when it speaks.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { optionOf, optionLabel, choiceLabel } from '../../state/book.js';
import { pricesShown } from '../../state/session.js';
import { take, clear } from '../../state/edit.js';
import { shownOption } from '../../state/shown.js';
import { difference, money } from '../../format.js';
import { Causes, Depends, anyDepends } from '../reasons/reasons.js';

const priceText = (shown, currency) => {
  if (!pricesShown.value || !shown.priced || !currency || !shown.priceFrom) return '';
  if (shown.priceFrom.amount === null) return t('price.not-priced-ask');
  const from = t('price.from', { amount: money(shown.priceFrom.amount, currency) });
  return shown.difference ? `${difference(shown.difference, currency)} · ${from}` : from;
};

const Why = ({ shown }) => {
  if (shown.causes.length) return html`<p class="note__lead">${t('why.closed')}</p><${Causes} causes=${shown.causes} />`;
  if (anyDepends(shown.depends)) return html`<p class="note__lead">${t('why.depends')}</p><${Depends} depends=${shown.depends} />`;
  return html`<p class="note__lead">${t(`why.${shown.state}`)}</p>`;
};

const Deeds = ({ job, option, shown }) => html`<div class="note__deeds">
  ${shown.state === 'closed' && !shown.taken && html`<button class="button" onClick=${() => take(job, option, shown.id)}>${t('why.take-all-the-same')}</button>`}
  ${['open', 'forced', 'usual'].includes(shown.state) && html`<button class="button" onClick=${() => take(job, option, shown.id)}>${t('why.take')}</button>`}
  ${job.line.value.answers[option]?.choice === shown.id && html`<button class="button" onClick=${() => clear(job, option)}>${t('choice.clear')}</button>`}
</div>`;

const About = ({ job, looking }) => {
  const { option, choice } = looking;
  const answer = job.answer.value;
  const shown = shownOption(optionOf(option), job.line.value.answers[option], answer, job.fresh.value).find((row) => row.id === choice);
  return html`
    <div class="note__head">
      <h3>${optionLabel(option)}: ${choiceLabel(option, choice)}</h3>
      <p class="note__state">${t(`choice.${shown.state}`)} ${priceText(shown, answer?.currency)}</p>
      <${Deeds} job=${job} option=${option} shown=${shown} />
    </div>
    <div class="note__why" tabindex="0" role="group" aria-label=${t('why.label')}><${Why} shown=${shown} /></div>`;
};

export const MarginNote = ({ job }) => {
  const looking = job.looking.value;
  return html`<aside class=${`note ${job.asked.value ? 'is-asked' : ''}`} aria-label=${t('note.label')} aria-live=${job.asked.value ? 'polite' : 'off'}>
    ${looking ? html`<${About} job=${job} looking=${looking} />` : html`<p class="note__lead">${t('note.empty')}</p>`}
    <button class="plain note__close" aria-label=${t('note.close')} onClick=${() => (job.asked.value = false)}>×</button>
  </aside>`;
};
