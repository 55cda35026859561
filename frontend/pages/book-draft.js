// A draft: what is wrong with it, its blocks by kind to be opened, what was done to it and can be taken back.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { go } from '../state/route.js';
import { useChange, useDraft, useForms, useOfDraft } from '../state/book-drafts.js';
import { dayAndTime } from '../format.js';
import { DraftPage, mistakesText } from '../components/book-draft/draft-head.js';
import { SelectField, TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';
import { Sure } from '../components/sure/sure.js';

export const pieceNamed = (piece) => [t(`drafting.block.${piece.kind}`), piece.name].filter(Boolean).join(' ');

const Faults = ({ draft }) => html`<section class="card" aria-labelledby="faults"><h2 id="faults">${t('drafting.mistakes')} <small>${draft.faults.length}</small></h2>
  <ul class="findings">${draft.faults.map((fault, at) => html`<li class="finding finding--fault" key=${at}>
    ${fault.piece === null ? html`<b>${t('drafting.line', { line: fault.line })}</b>` : html`<${Link} to=${`/book-drafts/${draft.id}/pieces/${fault.piece}`}>${pieceNamed(draft.pieces[fault.piece])}<//>`}
    ${` ${fault.what}: ${fault.instead}`}</li>`)}</ul></section>`;

const matches = (piece, q) => `${pieceNamed(piece)} ${Object.values(piece.label).join(' ')}`.toLowerCase().includes(q.trim().toLowerCase());

const Piece = ({ draft, piece, at }) => html`<li class="slip"><${Link} to=${`/book-drafts/${draft.id}/pieces/${at}`} class="slip__link slip__link--piece">
  <span class="slip__number">${piece.name || t(`drafting.block.${piece.kind}`)}</span><span class="slip__name">${say(piece.label)}</span>
  <span class="draft-wrong">${piece.mistakes > 0 ? mistakesText(piece.mistakes) : ''}</span><//></li>`;

const Kind = ({ draft, kind, rows, sought }) => html`<section class="card"><details class="part" open=${sought}><summary><h2>${t(`drafting.kind-of.${kind}`)} <small>${rows.length}</small></h2></summary>
  <ul class="slips">${rows.map(([piece, at]) => html`<${Piece} key=${at} draft=${draft} piece=${piece} at=${at} />`)}</ul></details></section>`;

const New = ({ draft, forms }) => {
  const picked = useSignal('rule');
  const there = new Set(draft.pieces.map((piece) => piece.kind));
  const kinds = [...forms.values()].filter((form) => !(form.once && there.has(form.kind)));
  return html`<form class="draft-new" onSubmit=${(event) => (event.preventDefault(), go(`/book-drafts/${draft.id}/new/${picked.value}`))}>
    <${SelectField} label=${t('drafting.new')} value=${picked.value} options=${kinds.map((form) => [form.kind, t(`drafting.block.${form.kind}`)])} onWrite=${(value) => (picked.value = value)} />
    <button class="button">${t('drafting.new-begin')}</button></form>`;
};

const Pieces = ({ draft, forms }) => {
  const q = useSignal('');
  const rows = draft.pieces.map((piece, at) => [piece, at]).filter(([piece]) => matches(piece, q.value));
  const kinds = [...forms.keys()].filter((kind) => rows.some(([piece]) => piece.kind === kind));
  const strange = rows.filter(([piece]) => !forms.has(piece.kind));
  return html`<div class="draft-tools"><${TextField} label=${t('drafting.find')} type="search" value=${q.value} onWrite=${(text) => (q.value = text)} />
      ${draft.standing === 'open' && html`<${New} draft=${draft} forms=${forms} />`}</div>
    ${kinds.map((kind) => html`<${Kind} key=${kind} draft=${draft} kind=${kind} rows=${rows.filter(([piece]) => piece.kind === kind)} sought=${Boolean(q.value.trim())} />`)}
    ${strange.length > 0 && html`<${Kind} draft=${draft} kind="strange" rows=${strange} sought=${true} />`}`;
};

const Steps = ({ draft, onBack }) => {
  const { body } = useOfDraft(draft, '/steps');
  return html`<section class="card"><details class="part"><summary><h2>${t('drafting.steps')} <small>${draft.version}</small></h2></summary>
    <ol class="draft-steps">${(body?.steps ?? []).map((step) => html`<li key=${step.version}><span>${t(`drafting.act.${step.act}`, { about: step.about })}<small class="quiet"> ${dayAndTime(step.at)}, ${step.by_name}</small></span>
      ${draft.standing === 'open' && step.version !== draft.version && html`<button class="plain" onClick=${() => onBack(step.version)}>${t('drafting.take-back')}<span class="unseen"> ${step.version}</span></button>`}</li>`)}</ol></details></section>`;
};

const Away = ({ change, busy }) =>
  html`<${Sure} label=${t('drafting.throw-away')} says=${t('drafting.throw-away-sure')} yes=${t('drafting.throw-away-yes')} no=${t('drafting.throw-away-no')} busy=${busy} onPress=${() => change('DELETE', '')} />`;

export const BookDraft = ({ draft: id }) => {
  const [draft, forms] = [useDraft(id), useForms()];
  const { change, problem, busy } = useChange(draft);
  return html`<${DraftPage} draft=${draft}>${draft.body && forms && html`
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${draft.body.faults.length > 0 && html`<${Faults} draft=${draft.body} />`}
    <${Pieces} draft=${draft.body} forms=${forms} />
    <${Steps} draft=${draft.body} onBack=${(version) => change('POST', '/steps', { version })} />
    ${draft.body.standing === 'open' && html`<${Away} change=${change} busy=${busy.value} />`}`}<//>`;
};
