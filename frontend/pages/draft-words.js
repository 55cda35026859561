// All texts for readers of a draft side by side in its languages; what one language lacks comes first. Each is changed here.
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

const nameOf = (one) => [knows(`drafting.field.${one.field}`) ? t(`drafting.field.${one.field}`) : t(`drafting.column.${one.field}`), one.of].filter(Boolean).join(' · ');

const matches = (one, q) => `${pieceNamed(one)} ${one.of} ${Object.values(one.texts).join(' ')}`.toLowerCase().includes(q.trim().toLowerCase());

const Text = ({ draft, one, languages, open, change, busy }) => {
  const typed = useSignal(one.texts);
  const moved = languages.some((code) => typed.value[code] !== one.texts[code]);
  const send = (event) => {
    event.preventDefault();
    change('PUT', '/words', { piece: one.piece, field: one.field, row: one.row, texts: typed.value });
  };
  return html`<li class="draft-word"><form onSubmit=${send}><p><${Link} to=${`/book-drafts/${draft.id}/pieces/${one.piece}`}>${pieceNamed(one)}<//> ${nameOf(one)} ${one.missing && html`<b class="draft-wrong">${t('drafting.words-lacks')}</b>`}</p>
    <div class="words">${languages.map((code) => html`<${TextArea} key=${code} lang=${code} rows="2" label=${t(`drafting.in.${code}`)} value=${typed.value[code]} disabled=${!open} onWrite=${(text) => (typed.value = { ...typed.value, [code]: text })} />`)}</div>
    ${moved && html`<div class="acts"><button class="button" disabled=${busy}>${t('drafting.keep')}</button></div>`}</form></li>`;
};

const keyOf = (one) => `${one.piece} ${one.field} ${one.row} ${Object.values(one.texts).join('|')}`;

export const DraftWords = ({ draft: id }) => {
  const draft = useDraft(id);
  const { body, problem } = useOfDraft(draft.body, '/words');
  const { change, problem: refused, busy } = useChange(draft);
  const [q, lacking] = [useSignal(''), useSignal(false)];
  const rows = (body?.texts ?? []).filter((one) => matches(one, q.value) && (!lacking.value || one.missing)).sort((one, other) => other.missing - one.missing);
  return html`<${DraftPage} draft=${draft}>${problem && html`<${Notice} problem=${problem} />`}${refused.value && html`<${Notice} problem=${refused.value} />`}
    ${body && html`<section aria-labelledby="draft-words"><h2 id="draft-words">${t('drafting.words')} <small>${rows.length}</small></h2><p class="quiet">${t('drafting.words-lead')}</p>
      <div class="draft-tools"><${TextField} label=${t('drafting.words-find')} type="search" value=${q.value} onWrite=${(text) => (q.value = text)} />
        <${TickField} label=${t('drafting.words-missing')} value=${lacking.value} onWrite=${(on) => (lacking.value = on)} /></div>
      ${rows.length ? html`<ul class="draft-words">${rows.slice(0, SHOWN).map((one) => html`<${Text} key=${keyOf(one)} draft=${draft.body} one=${one} languages=${body.languages} open=${draft.body.standing === 'open'} change=${change} busy=${busy.value} />`)}</ul>` : html`<p class="quiet">${t('drafting.words-none')}</p>`}
      ${rows.length > SHOWN && html`<p class="quiet">${t('drafting.words-more', { count: rows.length - SHOWN })}</p>`}</section>`}<//>`;
};
