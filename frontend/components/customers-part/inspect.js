// Inspecting a part that came: every limit of the book answered, then passed or failed, signed with a personal code.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { exact } from '../../format.js';
import { errorOf, useSending } from '../../state/sending.js';
import { decimal } from '../../state/amounts.js';
import { useSigners } from '../../state/signers.js';
import { TextArea, TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { Signature, useSignature } from '../signature/signature.js';

const RECEIVES = ['inspector', 'lead'];

const within = ({ bound, length }, measured) => (bound === 'at most' ? Number(measured) <= Number(length) : Number(measured) >= Number(length));

/** What is answered of a limit: true, false, or null while it is blank. */
const metOf = (limit, { met, measured }) => (limit.bound === null ? met : /^\d{1,5}(\.\d{1,2})?$/.test(decimal(measured)) ? within(limit, decimal(measured)) : null);

const wordOf = (met) => t(met === null ? 'receipt.blank' : met ? 'receipt.met' : 'receipt.missed');

const Ticked = ({ at, limit, answer, onAnswer }) => html`<fieldset class="states"><legend>${limit.says}</legend>
  ${[true, false].map((met) => html`<label key=${met} class="states__one"><input type="radio" name=${`limit-${at}`} checked=${answer.met === met} onChange=${() => onAnswer({ met })} />${t(met ? 'receipt.yes' : 'receipt.no')}</label>`)}</fieldset>`;

const Measured = ({ limit, answer, error, onAnswer }) => html`<div class="receipt__measured"><${TextField} label=${limit.says} hint=${t(limit.bound === 'at most' ? 'receipt.at-most' : 'receipt.at-least', { length: exact(limit.length) })} error=${error}
  inputmode="decimal" autocomplete="off" maxlength="9" value=${answer.measured} onWrite=${(measured) => onAnswer({ measured })} /><span class="receipt__met">${wordOf(metOf(limit, answer))}</span></div>`;

const Limit = ({ limit, ...rest }) => (limit.bound === null ? html`<${Ticked} limit=${limit} ...${rest} />` : html`<${Measured} limit=${limit} ...${rest} />`);

const sent = (limit, { met, measured }) => (limit.bound === null ? { met } : { measured: measured.trim() ? decimal(measured) : null });

export const Inspect = ({ part, onPart }) => {
  const signature = useSignature(useSigners().filter(({ role }) => RECEIVES.includes(role)));
  const answers = useSignal(part.limits.map(() => ({ met: null, measured: '' })));
  const why = useSignal('');
  const { send, problem, busy } = useSending();
  const write = (at) => (more) => (answers.value = answers.value.map((one, place) => (place === at ? { ...one, ...more } : one)));
  const press = (passed) => async () => {
    const findings = part.limits.map((limit, at) => sent(limit, answers.value[at]));
    const after = await send(`/api/parts/${part.tag}/verdicts`, { passed, findings, why: why.value, by: signature.by, code: signature.take() });
    if (after) onPart(after);
  };
  const mets = part.limits.map((limit, at) => metOf(limit, answers.value[at]));
  const all = mets.every((met) => met === true);
  const failing = mets.includes(false) || why.value.trim() !== '';
  return html`<form class="floor-form receipt__inspect" onSubmit=${(event) => event.preventDefault()}>
    ${part.limits.map((limit, at) => html`<${Limit} key=${at} at=${at} limit=${limit} answer=${answers.value[at]} error=${errorOf(problem, `findings.${at}.measured`)} onAnswer=${write(at)} />`)}
    <${TextArea} label=${t('receipt.why')} rows="2" maxlength="10000" error=${errorOf(problem, 'why')} value=${why.value} onWrite=${(text) => (why.value = text)} />
    <${Signature} of=${signature} label=${t('receipt.who')} />
    <div class="receipt__verdicts"><button type="button" class="button button--heavy" disabled=${busy.value || !all || !signature.code.value} onClick=${press(true)}>${t('receipt.pass')}</button>
      <button type="button" class="button" disabled=${busy.value || !failing || !signature.code.value} onClick=${press(false)}>${t('receipt.fail')}</button></div>
    <p class="quiet" role="status">${all ? t('receipt.can-pass') : t('receipt.cant-pass', { count: mets.filter((met) => met !== true).length })}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};
