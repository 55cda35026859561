// One option with all its choices, as a ruled row of the job card. Arrow keys walk, Enter or Space takes, "?" asks why.
// On a telephone the row is folded to its answer until it is opened; nothing but the reader opens or folds it.
import { useRef } from 'preact/hooks';
import { signal, useComputed } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { choiceLabel } from '../../state/book.js';
import { pricesShown } from '../../state/session.js';
import { take, clear, look } from '../../state/edit.js';
import { narrow } from '../../state/narrow.js';
import { shownOption, wordOf } from '../../state/shown.js';
import { difference, money } from '../../format.js';
import { Mark } from '../mark/mark.js';

/** In words; which rules, says the note. */
const stateWords = ({ state, lost, taken, original, adds }) => {
  const words = state === 'closed' && taken ? [t('choice.written')] : [];
  words.push(t(wordOf({ state, lost })));
  if (original && state !== 'usual') words.push(t('choice.original'));
  return [...words, ...adds.map((kind) => t(`choice.adds-${kind}`))].join(' · ');
};

const amount = ({ priced, difference: minor, taken, priceFrom }, currency) => {
  if (!pricesShown.value || !priced || !currency) return '';
  if (minor === null && priceFrom?.worked_out === false) return '';
  if (minor === null) return priceFrom?.amount ? t('price.from', { amount: money(priceFrom.amount, currency) }) : t('price.not-priced');
  return minor === 0 && taken ? '' : minor === 0 ? t('price.same') : difference(minor, currency);
};

const Choice = ({ job, option, shown, reachable, currency }) => {
  const label = choiceLabel(option.id, shown.id);
  const why = (event) => {
    job.jump = event.detail === 0;
    look(job, option.id, shown.id, true);
  };
  const press = (event) => {
    job.jump = event.detail === 0;
    look(job, option.id, shown.id, shown.state === 'closed');
    if (shown.state !== 'closed') take(job, option.id, shown.id);
  };
  return html`<div class=${`choice choice--${shown.state} ${shown.taken ? 'is-taken' : ''}`}>
    <button class="choice__take" aria-pressed=${shown.taken} tabindex=${reachable ? 0 : -1} data-choice=${`${option.id}.${shown.id}`}
      onClick=${press} onFocus=${() => look(job, option.id, shown.id)}>
      <${Mark} state=${shown.state} taken=${shown.taken} />
      <span class="choice__label">${label}</span>
      <span class="choice__amount">${amount(shown, currency)}</span>
      <span class="choice__state">${stateWords(shown)}</span>
    </button>
    <button class="choice__why" tabindex="-1" aria-label=${t('choice.why', { option: say(option.label), choice: label })}
      onClick=${why}>?</button>
  </div>`;
};

/** Options whose rows were opened on a narrow page. */
const unfolded = signal(new Set());

const turn = (option, open) => {
  const rows = new Set(unfolded.value);
  if (open) rows.add(option);
  else rows.delete(option);
  unfolded.value = rows;
};

const STEPS = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

const walk = (frame, event) => {
  const buttons = [...frame.querySelectorAll('.choice__take')];
  const at = buttons.indexOf(document.activeElement);
  if (event.key === '?' && at >= 0) return event.preventDefault() ?? buttons[at].nextElementSibling.click();
  const step = STEPS[event.key];
  if (!step || at < 0) return null;
  event.preventDefault();
  return buttons[(at + step + buttons.length) % buttons.length].focus();
};

/** What the row shows, as text: two that say the same are one, so that a click draws only the rows that change. */
const useShown = (job, option) =>
  useComputed(() => {
    const mine = job.line.value.answers[option.id] ?? null;
    const shown = shownOption(option, mine, job.answer.value, job.fresh.value);
    return JSON.stringify({ mine, shown, currency: job.answer.value?.currency });
  });

/** What a folded row says: the answer and how it stands, or that it is open. */
const foldedText = (option, shown) => {
  const taken = shown.find((choice) => choice.taken);
  return taken ? `${choiceLabel(option.id, taken.id)} · ${t(wordOf(taken))}` : t('choice.unanswered');
};

const Fold = ({ option, shown, open }) => html`<button class="option__fold" aria-expanded=${open} aria-controls=${`choices-${option.id}`}
  onClick=${() => turn(option.id, !open)}><b>${say(option.label)}</b> <span>${foldedText(option, shown)}</span></button>`;

export const OptionRow = ({ job, option }) => {
  const frame = useRef(null);
  const open = !narrow.value || unfolded.value.has(option.id);
  const { mine, shown, currency } = JSON.parse(useShown(job, option).value);
  const first = shown.find((choice) => choice.taken)?.id ?? shown[0].id;
  return html`<div class="option" role="group" aria-label=${say(option.label)} ref=${frame}
    id=${`row-${option.id}`} onKeyDown=${(event) => walk(frame.current, event)}>
    <div class="option__head">
      <h4 id=${`option-${option.id}`}>${narrow.value ? html`<${Fold} option=${option} shown=${shown} open=${open} />` : say(option.label)}</h4>
      <button class=${`plain option__clear ${mine ? '' : 'is-idle'}`} disabled=${!mine}
        aria-label=${t('choice.clear-of', { option: say(option.label) })} onClick=${() => clear(job, option.id)}>${t('choice.clear')}</button>
    </div>
    <div class="option__choices" id=${`choices-${option.id}`} hidden=${!open}>
      ${shown.map((choice) => html`<${Choice} key=${choice.id} job=${job} option=${option} shown=${choice}
        reachable=${choice.id === first} currency=${currency} />`)}
    </div>
  </div>`;
};

/** Brings an option into sight and puts the focus on it. */
export const goToOption = (option) => {
  turn(option, true);
  requestAnimationFrame(() => arriveAt(option));
};

const arriveAt = (option) => {
  const row = document.getElementById(`row-${option}`);
  row?.scrollIntoView({ block: 'center' });
  row?.querySelector('.choice__take[tabindex="0"]')?.focus({ preventScroll: true });
};
