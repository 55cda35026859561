// What the customer wants otherwise on a shell: chosen option by option, weighed by the server with every choice, then noted.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { pricesShown } from '../../state/session.js';
import { listed, day } from '../../format.js';
import { readAmountOrNone } from '../../state/amounts.js';
import { countryChoices } from '../../state/countries.js';
import { useAnswer } from '../../state/reading.js';
import { useSending } from '../../state/sending.js';
import { AmountField } from '../amount-field/amount-field.js';
import { SelectField, TextArea, TextField } from '../field/field.js';
import { Moves } from '../moves/moves.js';
import { Notice } from '../notice/notice.js';
import { Spoken, Taken, Told } from '../weighed-change/weighed-change.js';

const PAUSE = 250;

const labelled = (choices) => choices.map(({ choice, label }) => [choice, say(label)]);

const Option = ({ option, wanted, onChoose }) => html`<${SelectField} label=${say(option.label)} hint=${wanted ? t('shell-change.was', { choice: say(option.choices.find(({ choice }) => choice === option.choice).label) }) : undefined}
  class=${wanted ? 'field--changed' : ''} options=${labelled(option.choices)} value=${wanted ?? option.choice} onWrite=${(choice) => onChoose(option, choice)} />`;

const Options = ({ options, wish, onChoose }) => html`<div class="change-options">${options.map((option) => html`<${Option} key=${option.option} option=${option} wanted=${wish[option.option]} onChoose=${onChoose} />`)}</div>`;

const tooLate = (shell, { option }) => shell.options.some((one) => one.option === option && one.taken === 'no');

/** What it takes besides: chosen here, it is part of the wish. */
const Demands = ({ demands, shell, onChoose }) => html`<h3>${t('shell-change.demands')}</h3><ul class="change-demands">${demands.map((one) => html`<li key=${one.option}><b>${say(one.label)}</b> ${tooLate(shell, one) && html`<${Taken} taken="no" />`}
  ${one.choices.map(({ choice, label }) => html`<button key=${choice} type="button" class="button" onClick=${() => onChoose(shell.options.find(({ option }) => option === one.option), choice)}>${t('shell-change.take')}: ${say(label)}</button>`)}</li>`)}</ul>`;

const insteadText = ({ slot, ready }) => (slot ? t('shell-change.instead-slot', { slot: day(slot), ready: `${day(ready.ready)} – ${day(ready.ready_by)}` }) : t('shell-change.instead-none'));

const Against = ({ found, shell, onChoose }) => html`
  ${found.reasons.length > 0 && html`<h3>${t('shell-change.reasons')}</h3><${Spoken} rows=${found.reasons} />`}
  ${found.demands.length > 0 && html`<${Demands} demands=${found.demands} shell=${shell} onChoose=${onChoose} />`}
  ${found.unpriced.length > 0 && html`<p>${t('shell-change.unpriced', { lines: listed(found.unpriced.map(say)) })}</p>`}${found.untold && html`<p>${found.untold}</p>`}
  ${found.out.length > 0 && html`<p class="payment__says">${t('shell-change.out', { tools: listed(found.out.map(say)) })}</p>`}
  ${found.instead && html`<h3>${t('shell-change.instead')}</h3><p>${insteadText(found.instead)}</p>`}`;

const Weighed = ({ found, shell, onChoose }) => html`<section class="weighed" aria-live="polite" aria-labelledby="weighed-title"><h2 id="weighed-title">${t('shell-change.weighed')}</h2>
  <p class="weighed__taken"><${Taken} taken=${found.taken} /></p><${Told} told=${found} order=${shell.order} /><${Against} found=${found} shell=${shell} onChoose=${onChoose} />
  ${found.can && found.move && html`<${Moves} proposal=${found.move} />`}</section>`;

const Place = ({ place, onPlace }) => {
  const write = (name) => (text) => onPlace({ ...place, [name]: text });
  return html`<details class="change-place"><summary>${t('shell-change.elsewhere')}</summary>
    <${SelectField} label=${t('shell-change.country')} options=${countryChoices(place.country)} value=${place.country} onWrite=${write('country')} />
    <${TextField} label=${t('shell-change.region')} value=${place.region} maxlength="200" onWrite=${write('region')} /><${TextField} label=${t('shell-change.term')} value=${place.term} maxlength="200" onWrite=${write('term')} /></details>`;
};

const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

export const ChangeForm = ({ shell, onShell }) => {
  const [wish, place, charge, why] = [useSignal({}), useSignal(shell.place), useSignal(''), useSignal('')];
  const { send, problem, busy } = useSending();
  const minor = charge.value.trim() ? readAmountOrNone(charge.value, shell.currency) : 0;
  const asked = { choices: wish.value, place: same(place.value, shell.place) ? null : place.value, charge: minor ?? 0 };
  const anything = Object.keys(asked.choices).length > 0 || asked.place;
  const found = useAnswer(`/api/shells/${shell.id}/change-notes/weighed`, anything ? JSON.stringify(asked) : null, { pause: PAUSE });
  const choose = (option, choice) => {
    const { [option.option]: _, ...rest } = wish.value;
    wish.value = choice === option.choice ? rest : { ...rest, [option.option]: choice };
  };
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/shells/${shell.id}/change-notes`, { ...asked, why: why.value });
    if (!after) return;
    wish.value = {};
    why.value = '';
    onShell(after);
  };
  const open = shell.options.filter(({ taken }) => taken !== 'no');
  const closed = shell.options.filter(({ taken }) => taken === 'no');
  return html`<form class="change-form" onSubmit=${press}><div><h2>${t('shell-change.still')}</h2><${Options} options=${open} wish=${wish.value} onChoose=${choose} />
      ${closed.length > 0 && html`<details><summary>${t('shell-change.closed')}</summary><${Options} options=${closed} wish=${wish.value} onChoose=${choose} /></details>`}
      <${Place} place=${place.value} onPlace=${(after) => (place.value = after)} /></div>
    <div class="card">${found && anything ? html`<${Weighed} found=${found} shell=${shell} onChoose=${choose} />` : html`<p class="quiet">${t('shell-change.lead')}</p>`}
      ${found?.can && anything && html`<div class="money-form">${pricesShown.value && html`<${AmountField} label=${t('shell-change.charge')} hint=${t('shell-change.charge-hint')} currency=${shell.currency} none=${true} value=${charge.value} onWrite=${(text) => (charge.value = text)} />`}
        <${TextArea} class="field--wide" label=${t('shell-change.why')} required rows="2" value=${why.value} onWrite=${(text) => (why.value = text)} />
        <button class="button button--heavy" disabled=${busy.value}>${t('shell-change.draw')}</button></div>`}
      ${problem.value && html`<${Notice} problem=${problem.value} />`}</div></form>`;
};
