// All texts for readers of a draft side by side in its languages; what one language lacks comes first. Each is changed here.
// What papers and letters say stands among them: as shipped, until the firm says it in its own words.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, knows } from '../state/language.js';
import { useChange, useDraft, useOfDraft } from '../state/book-drafts.js';
import { DraftPage } from '../components/book-draft/draft-head.js';
import { TextArea, TextField, TickField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';
import { pieceNamed } from './book-draft.js';

/** So many at once: what is meant is found by searching. */
const SHOWN = 60;

const isWording = (one) => one.kind === 'wording';

const nameOf = (one) => [knows(`drafting.field.${one.field}`) ? t(`drafting.field.${one.field}`) : t(`drafting.column.${one.field}`), one.of].filter(Boolean).join(' · ');

const wordingName = (one) => (knows(`wording.${one.name}`) ? t(`wording.${one.name}`) : one.name);

const headOf = (one) => (isWording(one) ? wordingName(one) : `${pieceNamed(one)} ${one.of}`);

const matches = (one, q) => `${headOf(one)} ${one.name} ${Object.values(one.texts).join(' ')}`.toLowerCase().includes(q.trim().toLowerCase());

const Head = ({ draft, one }) => {
  const name = isWording(one) ? wordingName(one) : pieceNamed(one);
  return html`<p>${one.piece === null ? html`<b>${name}</b>` : html`<${Link} to=${`/book-drafts/${draft.id}/pieces/${one.piece}`}>${name}<//>`}
    ${' '}${isWording(one) ? html`<span class="quiet">${t(one.piece === null ? 'wordings.as-shipped' : 'wordings.own')}</span>` : nameOf(one)}
    ${one.missing && html` <b class="draft-wrong">${t('drafting.words-lacks')}</b>`}</p>`;
};

/** A mistake in a text stands beside it. */
const Faults = ({ draft, one }) =>
  one.piece !== null && draft.faults.filter((fault) => fault.piece === one.piece).map((fault, at) => html`<p key=${at} class="draft-wrong">${`${fault.what}: ${fault.instead}`}</p>`);

const Acts = ({ one, moved, open, change, busy }) => {
  const back = isWording(one) && one.piece !== null && open;
  if (!moved && !back) return null;
  return html`<div class="acts">${moved && html`<button class="button" disabled=${busy}>${t('drafting.keep')}</button>`}
    ${back && html`<button type="button" class="button" disabled=${busy} onClick=${() => change('DELETE', `/pieces/${one.piece}`)}>${t('wordings.back')}</button>`}</div>`;
};

const linesOf = (one) => (isWording(one) ? Math.min(14, Math.max(2, ...Object.values(one.texts).map((text) => text.split('\n').length + Math.floor(text.length / 160)))) : 2);

const Text = ({ draft, one, languages, open, change, busy }) => {
  const typed = useSignal(one.texts);
  const moved = languages.some((code) => typed.value[code] !== one.texts[code]);
  const send = (event) => {
    event.preventDefault();
    change('PUT', '/words', { piece: one.piece, name: one.name, field: one.field, row: one.row, texts: typed.value });
  };
  return html`<li class="draft-word"><form onSubmit=${send}><${Head} draft=${draft} one=${one} /><${Faults} draft=${draft} one=${one} />
    <div class="words">${languages.map((code) => html`<${TextArea} key=${code} lang=${code} rows=${linesOf(one)} label=${t(`drafting.in.${code}`)} value=${typed.value[code]} disabled=${!open} onWrite=${(text) => (typed.value = { ...typed.value, [code]: text })} />`)}</div>
    ${one.slots.length > 0 && html`<p class="quiet">${t('wordings.names', { slots: one.slots.map((slot) => `{${slot}}`).join(' ') })}</p>`}
    <${Acts} one=${one} moved=${moved} open=${open} change=${change} busy=${busy} /></form></li>`;
};

const keyOf = (one) => `${one.piece} ${one.name} ${one.field} ${one.row} ${Object.values(one.texts).join('|')}`;

export const DraftWords = ({ draft: id }) => {
  const draft = useDraft(id);
  const { body, problem } = useOfDraft(draft.body, '/words');
  const { change, problem: refused, busy } = useChange(draft);
  const [q, lacking, papers] = [useSignal(''), useSignal(false), useSignal(false)];
  const wanted = (one) => matches(one, q.value) && (!lacking.value || one.missing) && (!papers.value || isWording(one));
  const rows = (body?.texts ?? []).filter(wanted).sort((one, other) => other.missing - one.missing);
  return html`<${DraftPage} draft=${draft}>${problem && html`<${Notice} problem=${problem} />`}${refused.value && html`<${Notice} problem=${refused.value} />`}
    ${body && html`<section aria-labelledby="draft-words"><h2 id="draft-words">${t('drafting.words')} <small>${rows.length}</small></h2><p class="quiet">${t('drafting.words-lead')}</p>
      <div class="draft-tools"><${TextField} label=${t('drafting.words-find')} type="search" value=${q.value} onWrite=${(text) => (q.value = text)} />
        <${TickField} label=${t('drafting.words-missing')} value=${lacking.value} onWrite=${(on) => (lacking.value = on)} />
        <${TickField} label=${t('wordings.only')} value=${papers.value} onWrite=${(on) => (papers.value = on)} /></div>
      ${rows.length ? html`<ul class="draft-words">${rows.slice(0, SHOWN).map((one) => html`<${Text} key=${keyOf(one)} draft=${draft.body} one=${one} languages=${body.languages} open=${draft.body.standing === 'open'} change=${change} busy=${busy.value} />`)}</ul>` : html`<p class="quiet">${t('drafting.words-none')}</p>`}
      ${rows.length > SHOWN && html`<p class="quiet">${t('drafting.words-more', { count: rows.length - SHOWN })}</p>`}</section>`}<//>`;
};
