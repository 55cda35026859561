// How a shell is packed: packages as measured and weighed, what goes with it and back as the records know it, who carries it,
// and what a border asks.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { useReading } from '../../state/reading.js';
import { useSending } from '../../state/sending.js';
import { SelectField, TextArea, TextField, TickField } from '../field/field.js';
import { Notice } from '../notice/notice.js';
import { begun, lines, Proposals } from './proposals.js';

/** Incoterms 2020. */
const RULES = ['', 'EXW', 'FCA', 'CPT', 'CIP', 'DAP', 'DPU', 'DDP', 'FAS', 'FOB', 'CFR', 'CIF'];
const SIZES = ['length', 'width', 'height', 'mass'];
const EMPTY = { kind: '', length: '', width: '', height: '', mass: '', timber: false };
const NOTHING = { packages: [], net_mass: '', loose: [], returned: [], consignee: [], carrier: '', term: { rule: '', place: '' }, timber_mark: '', evidence: '' };

const typedOf = (packing, proposals) => {
  const had = packing ?? NOTHING;
  const text = (one) => had[one].join('\n');
  const list = (into) => (packing ? text(into) : begun(proposals, into));
  return { ...had, packages: had.packages.length ? had.packages : [EMPTY], loose: list('loose'), returned: list('returned'), consignee: text('consignee'), ...had.term };
};

const bodyOf = ({ packages, net_mass: net, loose, returned, consignee, carrier, rule, place, timber_mark: mark, evidence }) => ({
  packages: packages.map((one) => ({ ...one, ...Object.fromEntries(SIZES.map((size) => [size, Number(one[size])])) })),
  net_mass: Number(net), loose: lines(loose), returned: lines(returned), consignee: lines(consignee),
  carrier, term: { rule, place }, timber_mark: mark, evidence,
});

const Package = ({ at, one, errors, onWrite, onLeave }) => html`<fieldset class="packing__package"><legend>${t('packing.package', { number: at + 1 })}</legend>
  <${TextField} label=${t('packing.kind')} required maxlength="200" autocomplete="off" value=${one.kind} error=${errors(`packages.${at}.kind`)} onWrite=${(kind) => onWrite({ ...one, kind })} />
  ${SIZES.map((size) => html`<${TextField} key=${size} label=${t(`packing.${size}`)} type="number" inputmode="numeric" min="1" max="20000" required value=${one[size]} error=${errors(`packages.${at}.${size}`)} onWrite=${(text) => onWrite({ ...one, [size]: text })} />`)}
  <${TickField} label=${t('packing.timber')} value=${one.timber} onWrite=${(timber) => onWrite({ ...one, timber })} />
  ${onLeave && html`<button type="button" class="button" onClick=${onLeave}>${t('packing.leave-out')}</button>`}</fieldset>`;

const Packages = ({ typed, errors }) => {
  const { packages } = typed.value;
  const write = (after) => (typed.value = { ...typed.value, packages: after });
  return html`<div class="packing__packages">${packages.map((one, at) => html`<${Package} key=${at} at=${at} one=${one} errors=${errors} onWrite=${(after) => write(packages.with(at, after))} onLeave=${packages.length > 1 && (() => write(packages.toSpliced(at, 1)))} />`)}
    <button type="button" class="button" onClick=${() => write([...packages, EMPTY])}>${t('packing.another')}</button></div>`;
};

const Abroad = ({ shell, field, typed, errors }) => html`
  <${SelectField} label=${t('packing.term')} options=${RULES.map((rule) => [rule, rule || t('packing.no-term')])} value=${typed.value.rule} error=${errors('term.rule')} onWrite=${(rule) => (typed.value = { ...typed.value, rule })} />
  <${TextField} label=${t('packing.place')} hint=${t('packing.place-hint')} maxlength="200" autocomplete="off" error=${errors('term.place')} ...${field('place')} />
  <${TextField} label=${t('packing.timber-mark')} hint=${t('packing.timber-hint')} maxlength="200" autocomplete="off" ...${field('timber_mark')} />
  ${shell.untaxed && html`<${TextArea} class="field--wide" label=${t('packing.evidence')} hint=${t('packing.evidence-hint')} rows="2" ...${field('evidence')} />`}`;

const List = ({ into, proposals, field }) => html`<${TextArea} class="field--wide" label=${t(`packing.${into}`)} hint=${t('packing.one-a-line')} rows="3" ...${field(into)} />
  <${Proposals} proposals=${proposals.filter((one) => one.into === into)} text=${field(into).value} onWrite=${field(into).onWrite} />`;

const Form = ({ shell, proposals, onShell, onDone }) => {
  const typed = useSignal(typedOf(shell.packing, proposals));
  const { send, problem, busy } = useSending();
  const errors = (name) => problem.value?.errors?.[name]?.join(' ');
  const field = (name) => ({ value: typed.value[name], error: errors(name), onWrite: (text) => (typed.value = { ...typed.value, [name]: text }) });
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/shells/${shell.id}/packing`, bodyOf(typed.value));
    if (after) (onDone(), onShell(after));
  };
  return html`<form class="money-form packing" onSubmit=${press}><p class="money-form__lead quiet">${t('packing.lead')}</p>
    <${Packages} typed=${typed} errors=${errors} />
    <${TextField} label=${t('packing.net')} type="number" inputmode="numeric" min="1" max="20000" required ...${field('net_mass')} />
    <${TextField} label=${t('packing.carrier')} maxlength="200" autocomplete="off" ...${field('carrier')} />
    <${TextArea} label=${t('packing.consignee')} rows="4" required ...${field('consignee')} />
    <${List} into="loose" proposals=${proposals} field=${field} />
    <${List} into="returned" proposals=${proposals} field=${field} />
    ${shell.abroad && html`<${Abroad} shell=${shell} field=${field} typed=${typed} errors=${errors} />`}
    <button class="button button--heavy" disabled=${busy.value}>${t('packing.keep')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

/** Typed once what the records know is there; where that can't be read the lists are typed by hand. */
export const PackingForm = ({ shell, ...rest }) => {
  const { body, problem } = useReading(`/api/shells/${shell.id}/packing-proposals`);
  if (!body.value && !problem.value) return null;
  return html`${!body.value && html`<${Notice} problem=${problem.value} />`}<${Form} shell=${shell} proposals=${body.value?.proposals ?? []} ...${rest} />`;
};
