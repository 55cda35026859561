// What shows that a shell which left untaxed, as an export, left the country: by when it has to be held, what is, and its record.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may, today } from '../../state/session.js';
import { day, dayAndTime } from '../../format.js';
import { Folded } from '../folded/folded.js';
import { TextArea, TextField, typed } from '../field/field.js';
import { SaidForm } from '../said-form/said-form.js';

const LATE = ['overdue', 'held-late'];

const Hold = ({ shell, ...rest }) => {
  const [what, on] = [useSignal(''), useSignal(today())];
  return html`<${SaidForm} path=${`/api/shells/${shell.id}/export-evidence`} body=${() => ({ what: what.value, day: on.value })} lead=${t('evidence.lead')} keep=${t('evidence.keep')} ...${rest} fields=${(errors) => html`
    <${TextArea} class="field--wide" label=${t('evidence.what')} hint=${t('evidence.what-hint')} rows="2" required maxlength="10000" error=${errors('what')} ...${typed(what)} />
    <${TextField} label=${t('evidence.day')} type="date" required max=${today()} error=${errors('day')} ...${typed(on)} />`} />`;
};

const TakeBack = ({ shell, ...rest }) => {
  const why = useSignal('');
  return html`<${SaidForm} path=${`/api/shells/${shell.id}/export-evidence/withdrawal`} body=${() => ({ why: why.value })} lead=${t('evidence.back-lead')} keep=${t('evidence.back-now')} ...${rest} fields=${(errors) => html`
    <${TextArea} class="field--wide" label=${t('evidence.why')} rows="2" required maxlength="10000" error=${errors('why')} ...${typed(why)} />`} />`;
};

const saidText = ({ what, day: on }) => (on ? t('evidence.said', { what, day: day(on) }) : t('evidence.said-back', { what }));

const Said = ({ said }) => said.length > 0 && html`<ul class="evidence__said">${said.map((one, at) => html`<li key=${at}>${saidText(one)} <span class="quiet">${t('evidence.by', { by: one.by_name, at: dayAndTime(one.at) })}</span></li>`)}</ul>`;

const Acts = ({ shell, held, onShell }) => html`<div class="acts">
  <${Folded} label=${t(held ? 'evidence.again' : 'evidence.open')}>${(close) => html`<${Hold} shell=${shell} onSaid=${(after) => (close(), onShell(after))} />`}<//>
  ${held && html`<${Folded} label=${t('evidence.back')}>${(close) => html`<${TakeBack} shell=${shell} onSaid=${(after) => (close(), onShell(after))} />`}<//>`}</div>`;

export const ExportEvidence = ({ shell, onShell }) => {
  const { stands, says, said } = shell.export_evidence;
  return html`<div class=${`evidence evidence--${stands}`}><p class=${LATE.includes(stands) ? 'evidence__late' : ''}>${LATE.includes(stands) && html`<b>${t('evidence.late')}</b> `}${says}</p><${Said} said=${said} />
    ${may('hold-evidence') && html`<${Acts} shell=${shell} held=${stands.startsWith('held')} onShell=${onShell} />`}</div>`;
};
