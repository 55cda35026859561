// One block of a draft to change, to move and to take out; and a new one. What a colleague changed meanwhile is told, and
// what was typed stays.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { go } from '../state/route.js';
import { pathOf, useChange, useDraft, useForms, useOfDraft } from '../state/book-drafts.js';
import { useReading } from '../state/reading.js';
import { DraftPage } from '../components/book-draft/draft-head.js';
import { PieceForm } from '../components/book-draft/piece-form.js';
import { Notice } from '../components/notice/notice.js';
import { pieceNamed } from './book-draft.js';

const Title = ({ piece, label }) => html`<h2 class="draft-title">${pieceNamed(piece)} <small>${say(label)}</small></h2>`;

/** The block as it stood when somebody else had changed the draft: his lines, to be looked at before saving again. */
const Meanwhile = ({ draft, at, seen, onAgain }) => {
  const { body, problem } = useReading(`${pathOf(draft.body.id)}/pieces/${at}`);
  if (!body.value && !problem.value) return null;
  const now = body.value?.text ?? '';
  return html`<div class="elsewhere"><p>${t(now === seen ? 'drafting.meanwhile-elsewhere' : 'drafting.meanwhile-here')}</p>
    ${now !== seen && html`<pre class="draft-lines">${now}</pre>`}
    <button type="button" class="button" onClick=${onAgain}>${t('drafting.meanwhile-go-on')}</button></div>`;
};

const wasOvertaken = (problem) => problem?.type === '/problems/changed-by-another';

const Out = ({ onOut, busy }) => html`<button type="button" class="button" disabled=${busy} onClick=${onOut}>${t('drafting.take-out')}</button>`;

const Place = ({ at, draft, change }) => {
  const same = draft.pieces.map((piece, number) => [piece, number]).filter(([piece]) => piece.kind === draft.pieces[at].kind).map(([, number]) => number);
  const beside = [same[same.indexOf(at) - 1], same[same.indexOf(at) + 1]];
  const move = async (to) => (await change('PUT', `/pieces/${at}/place`, { to })) && go(`/book-drafts/${draft.id}/pieces/${to}`);
  return html`${['up', 'down'].map((way, number) => html`<button key=${way} type="button" class="button" disabled=${beside[number] === undefined} onClick=${() => move(beside[number])}>${t(`drafting.move-${way}`)}</button>`)}`;
};

export const BookPiece = ({ draft: id, piece: number }) => {
  const [draft, forms, at] = [useDraft(id), useForms(), Number(number)];
  const { body: piece, problem: missing } = useOfDraft(draft.body, `/pieces/${at}`);
  const { change, problem, busy } = useChange(draft);
  const kept = useSignal(false);
  const send = async (path, body) => (kept.value = Boolean(await change('PUT', `/pieces/${at}${path}`, body)));
  const out = async () => (await change('DELETE', `/pieces/${at}`)) && go(`/book-drafts/${id}`);
  const again = async () => ((await draft.fetch()), (problem.value = null));
  return html`<${DraftPage} draft=${draft}>
    ${missing && html`<${Notice} problem=${missing} />`}
    ${piece && forms && draft.body.pieces[at] && html`<${Title} piece=${piece} label=${draft.body.pieces[at].label} />
      ${piece.faults.length > 0 && html`<ul class="draft-faults" role="status">${piece.faults.map((fault, row) => html`<li key=${row}>${fault.what}: ${fault.instead}</li>`)}</ul>`}
      ${wasOvertaken(problem.value) && html`<${Meanwhile} draft=${draft} at=${at} seen=${piece.text} onAgain=${again} />`}
      <${PieceForm} key=${`${piece.at}${wasOvertaken(problem.value)}`} draft=${draft.body} form=${forms.get(piece.kind)} piece=${forms.has(piece.kind) ? piece : { ...piece, whole: false }} problem=${problem.value} busy=${busy.value || draft.body.standing !== 'open'}
        onForm=${(entry) => send('', entry)} onText=${(text) => send('/text', { text })}>
        ${draft.body.standing === 'open' && html`<${Place} at=${at} draft=${draft.body} change=${change} /><${Out} onOut=${out} busy=${busy.value} />`}<//>
      <p role="status" class="draft-kept">${kept.value && !problem.value ? t('drafting.kept') : ''}</p>`}<//>`;
};

/** Behind the last of its kind, else at the end. */
const placeFor = (draft, kind) => {
  const last = draft.pieces.findLastIndex((piece) => piece.kind === kind);
  return last < 0 ? draft.pieces.length - 1 : last;
};

const EMPTY = { name: '', fields: [], rows: [], whole: true, faults: [] };

export const NewPiece = ({ draft: id, kind }) => {
  const [draft, forms] = [useDraft(id), useForms()];
  const { change, problem, busy } = useChange(draft);
  const send = async (entry) => {
    const after = placeFor(draft.body, kind);
    if (await change('POST', '/pieces', { ...entry, after })) go(`/book-drafts/${id}/pieces/${after + 1}`);
  };
  const first = kind === 'rule' ? [{ name: 'never', value: '' }] : [];
  return html`<${DraftPage} draft=${draft}>${draft.body && forms?.has(kind) && html`<h2 class="draft-title">${t(`drafting.new-of`, { kind: t(`drafting.block.${kind}`) })}</h2>
    <${PieceForm} draft=${draft.body} form=${forms.get(kind)} piece=${{ ...EMPTY, kind, fields: first }} problem=${problem.value} busy=${busy.value || draft.body.standing !== 'open'} onForm=${send} />`}<//>`;
};
