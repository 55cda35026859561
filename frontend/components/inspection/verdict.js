// The verdict: what still keeps the shell from passing, and who signs. Whoever welded any of it signs with a second person.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { dayAndTime } from '../../format.js';
import { useSending } from '../../state/sending.js';
import { isOver } from '../../state/shells.js';
import { SelectField, TextArea } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { SellAsSecond } from '../stock/sell-as-second.js';
import { Signature, useSignature } from '../signature/signature.js';

const SECONDS = ['inspector', 'lead'];

/** Nothing passes while anything lacks; nothing is sent back that didn't fail. */
const verdictsOf = (phase) => [...(phase.lacks.length ? [] : [phase.verdict]), ...(phase.failed ? ['rework'] : []), 'reject'];

const zonesOf = (one, name) => one.welders.find((each) => each.name === name)?.zones ?? [];

const Form = ({ one, phase, signers, onShell }) => {
  const inspectors = signers.filter(({ role }) => role === 'inspector');
  const possible = verdictsOf(phase);
  const [verdict, why, stage] = [useSignal(''), useSignal(''), useSignal(one.stages.at(-1)?.stage ?? '')];
  const first = useSignature(inspectors);
  const second = useSignature(signers.filter(({ role, name }) => SECONDS.includes(role) && name !== first.by));
  const { send, problem, busy } = useSending();
  const said = possible.includes(verdict.value) ? verdict.value : possible[0];
  const own = phase.phase === 'metal' && ['pass', 'concession'].includes(said) ? zonesOf(one, first.by) : [];
  const press = async (event) => {
    event.preventDefault();
    const beside = own.length ? { second_by: second.by, second_code: second.take() } : {};
    const body = { phase: phase.phase, verdict: said, why: why.value, stage: said === 'rework' ? stage.value : '', by: first.by, code: first.take(), ...beside };
    const after = await send(`/api/shells/${one.shell}/inspection/verdicts`, body);
    if (after) onShell(after);
  };
  return html`<form class="floor-form" onSubmit=${press}>
    <${SelectField} label=${t('inspect.verdict')} value=${said} onWrite=${(text) => (verdict.value = text)} options=${possible.map((each) => [each, t(`inspect.verdict.${each}`)])} />
    ${said === 'rework' && html`<${SelectField} label=${t('inspect.back-to')} value=${stage.value} onWrite=${(text) => (stage.value = text)} options=${one.stages.map((each) => [each.stage, each.label])} />`}
    ${said !== 'pass' && html`<${TextArea} label=${t('inspect.why')} required value=${why.value} onWrite=${(text) => (why.value = text)} />`}
    <${Signature} of=${first} />
    ${own.length > 0 && html`<p class="inspect-stop">${t('inspect.second', { by: first.signer?.display_name ?? '', zones: own.join('; ') })}</p><fieldset><legend>${t('inspect.second-signs')}</legend><${Signature} of=${second} /></fieldset>`}
    <button class="button button--heavy" disabled=${busy.value}>${t('inspect.sign')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Given = ({ one }) => html`<li><b>${t(`inspect.phase.${one.phase}`)}: ${t(`inspect.verdict.${one.verdict}`)}</b> ${one.why && html`<q>${one.why}</q>`}
  <span class="quiet"> ${one.signed_name}${one.second_name ? ` + ${one.second_name}` : ''}, ${dayAndTime(one.at)}</span></li>`;

/** `unsent`: how many readings are still on this tablet; nobody signs over them. */
export const VerdictCard = ({ one, phase, signers, unsent, onShell }) => {
  const over = isOver(one);
  const can = may('sign-verdicts') && !over && !phase.passed && (phase.phase === 'coated' || one.due) && !unsent;
  return html`<section class="card inspect-verdict" aria-labelledby="inspect-verdict"><h2 id="inspect-verdict">${t('inspect.verdict-title')}</h2>
    ${phase.passed && html`<p class="inspect-passed">${t('inspect.passed', { verdict: t(`inspect.verdict.${phase.passed.verdict}`) })}</p>`}
    ${over && html`<p><span class=${`standing standing--${one.state}`}>${t(`shell.${one.state}`)}</span></p>`}${one.state === 'rejected' && html`<${SellAsSecond} shell=${one.shell} />`}
    ${!over && !phase.passed && phase.lacks.length > 0 && html`<p>${t('inspect.lacks')}</p><ul>${phase.lacks.map((says) => html`<li key=${says}>${says}</li>`)}</ul>`}
    ${unsent > 0 && html`<p class="inspect-unsent">${t('inspect.unsent-first', { count: unsent })}</p>`}
    ${can && html`<${Form} key=${phase.phase} one=${one} phase=${phase} signers=${signers} onShell=${onShell} />`}
    ${one.verdicts.length > 0 && html`<ol class="history">${one.verdicts.map((each, at) => html`<${Given} key=${at} one=${each} />`)}</ol>`}</section>`;
};
