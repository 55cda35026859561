// A condition of the rule book: put together from lists where it is a plain one, written out where it is not. What it says
// in the book's words, or what is wrong with it, stands below.
import { useId } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { pathOf } from '../../state/book-drafts.js';
import { useAnswer } from '../../state/reading.js';
import { SelectField, TextArea } from '../field/field.js';

const PAUSE = 250;
const WITH_CHOICES = ['is', 'is-not'];
const HOWS = ['is', 'is-not', 'usual', 'not-usual'];
const SAID = { is: 'is', 'is-not': 'is not', usual: 'is usual', 'not-usual': 'is not usual', donors: 'is the donor\'s', 'not-donors': 'is not the donor\'s' };

const termText = ({ option, how, choices }) => `${option} ${SAID[how]}${WITH_CHOICES.includes(how) ? ` ${choices.join(' or ')}` : ''}`;

/** The terms in the language of conditions. */
const conditionText = ({ every, terms }) => {
  if (!terms.length) return 'always';
  const said = terms.map(termText);
  if (every || said.length === 1) return said.join(' and ');
  return said.map((one) => `(${one})`).join(' or ');
};

const labelOf = (named) => say(named.label) || named.id;

/** What the server makes of it, a little after the last key; in a changed draft anew. */
const useSaid = (draft, text) => {
  const asked = text.trim() ? JSON.stringify({ text }) : null;
  return useAnswer(`${pathOf(draft.id)}/conditions`, asked, { pause: PAUSE, first: 0, turn: draft.version });
};

const Choices = ({ option, term, onTerm }) => {
  const name = useId();
  const toggle = (id, on) => onTerm({ ...term, choices: option.parts.map((part) => part.id).filter((one) => (one === id ? on : term.choices.includes(one))) });
  return html`<fieldset class="term__choices"><legend class="unseen">${t('drafting.choices-of', { option: labelOf(option) })}</legend>
    ${option.parts.map((part) => html`<label class="check" key=${part.id}><input type="checkbox" name=${name} checked=${term.choices.includes(part.id)} onChange=${(event) => toggle(part.id, event.target.checked)} /> ${labelOf(part)}</label>`)}</fieldset>`;
};

const Term = ({ term, options, series, onTerm, onRemove }) => {
  const option = options.find((one) => one.id === term.option);
  const hows = term.option === series ? [...HOWS.slice(0, 2), 'donors', 'not-donors'] : HOWS;
  const other = (id) => onTerm({ option: id, how: WITH_CHOICES.includes(term.how) ? term.how : 'is', choices: [options.find((one) => one.id === id).parts[0].id] });
  const how = (value) => onTerm({ ...term, how: value, choices: WITH_CHOICES.includes(value) ? (term.choices.length ? term.choices : [option.parts[0].id]) : [] });
  return html`<li class="term"><${SelectField} label=${t('drafting.option')} value=${term.option} options=${options.map((one) => [one.id, labelOf(one)])} onWrite=${other} />
    <${SelectField} label=${t('drafting.how')} value=${term.how} options=${hows.map((one) => [one, t(`drafting.how.${one}`)])} onWrite=${how} />
    ${option && WITH_CHOICES.includes(term.how) && html`<${Choices} option=${option} term=${term} onTerm=${onTerm} />`}
    <button type="button" class="plain term__out" onClick=${onRemove}>${t('drafting.take-term-out')}</button></li>`;
};

const Builder = ({ draft, terms, none, onTerms }) => {
  const options = (draft.declared.of.option ?? []).filter((option) => option.parts.length);
  const write = (next) => onTerms({ ...terms, ...next });
  const put = (at, term) => write({ terms: terms.terms.map((one, number) => (number === at ? term : one)) });
  const add = () => write({ terms: [...terms.terms, { option: options[0].id, how: 'is', choices: [options[0].parts[0].id] }] });
  return html`<div class="builder">
    ${terms.terms.length > 1 && html`<${SelectField} label=${t('drafting.joined')} value=${terms.every ? 'all' : 'any'} options=${[['all', t('drafting.all')], ['any', t('drafting.any')]]} onWrite=${(value) => write({ every: value === 'all' })} />`}
    ${terms.terms.length === 0 && html`<p class="quiet">${none}</p>`}
    <ul class="builder__terms">${terms.terms.map((term, at) => html`<${Term} key=${`${at}${term.option}`} term=${term} options=${options} series=${draft.declared.roles.series}
      onTerm=${(next) => put(at, next)} onRemove=${() => write({ terms: terms.terms.filter((_, number) => number !== at) })} />`)}</ul>
    ${options.length > 0 && html`<button type="button" class="button" onClick=${add}>${t('drafting.add-term')}</button>`}</div>`;
};

const Faults = ({ faults }) => html`<ul class="draft-faults">${faults.map((fault) => html`<li key=${fault.what}>${fault.what}: ${fault.instead}</li>`)}</ul>`;

const Told = ({ said }) => html`<p class="quiet condition__said" aria-live="polite">${said?.said ? t('drafting.says', { said: said.said }) : ''}</p>
  ${said?.faults.length > 0 && html`<${Faults} faults=${said.faults} />`}`;

export const ConditionField = ({ draft, label, value, needed, error, onWrite }) => {
  const said = useSaid(draft, value);
  const terms = value.trim() ? said?.asked.text === value && said.terms : { every: true, terms: [] };
  const shown = useSignal(null);
  if (terms) shown.value = terms;
  const writing = useSignal(false);
  const put = (next) => {
    shown.value = next;
    onWrite(next.terms.length ? conditionText(next) : '');
  };
  const plain = shown.value && !said?.faults.length && (said?.asked.text !== value || said?.terms || !value.trim());
  return html`<fieldset class="condition field--wide"><legend>${label}</legend>
    ${plain && !writing.value ? html`<${Builder} draft=${draft} terms=${shown.value} none=${t(needed && !value.trim() ? 'drafting.no-condition' : 'drafting.always')} onTerms=${put} />` : html`<${TextArea} label=${t('drafting.written')} rows="2" value=${value} onWrite=${onWrite} spellcheck="false" />`}
    <${Told} said=${said} />${error && !said?.faults.length && html`<small class="field__error">${error}</small>`}
    ${plain && html`<button type="button" class="plain" onClick=${() => (writing.value = !writing.value)}>${t(writing.value ? 'drafting.from-lists' : 'drafting.write-out')}</button>`}</fieldset>`;
};
