// A draft as its text: what differs from the book it began from, the file to take away, and a text to bring back.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { pathOf, useChange, useDraft, useOfDraft } from '../state/book-drafts.js';
import { DraftPage } from '../components/book-draft/draft-head.js';
import { TextArea } from '../components/field/field.js';
import { Notice } from '../components/notice/notice.js';

const MARKS = { '+': 'is-new', '-': 'is-gone', ' ': '' };

const Line = ({ one }) => (one.line === null ? html`<div class="diff__gap">⋯</div>` : html`<div class=${`diff__line ${MARKS[one.mark]}`}><span class="diff__mark">${one.mark}</span>${one.line || ' '}</div>`);

const Changes = ({ draft }) => {
  const { body, problem } = useOfDraft(draft, '/changes');
  return html`<section class="card" aria-labelledby="diff"><h2 id="diff">${t('drafting.changes', { number: draft.base })}</h2>
    ${problem && html`<${Notice} problem=${problem} />`}
    ${body && html`<p class="quiet">${body.lines.length ? t('drafting.changes-count', { added: body.added, out: body.taken_out }) : t('drafting.changes-none')}</p>
      ${body.lines.length > 0 && html`<div class="diff scrolls" tabindex="0" role="group" aria-labelledby="diff">${body.lines.map((one, at) => html`<${Line} key=${at} one=${one} />`)}</div>`}`}</section>`;
};

const Bring = ({ change, busy }) => {
  const text = useSignal('');
  const pick = async (event) => {
    const [file] = event.target.files;
    if (file) text.value = await file.text();
  };
  const send = async (event) => {
    event.preventDefault();
    if (await change('PUT', '/text', { text: text.value })) text.value = '';
  };
  return html`<form class="card" onSubmit=${send}><h2>${t('drafting.bring')}</h2><p class="quiet">${t('drafting.bring-lead')}</p>
    <div class="field"><label for="book-file">${t('drafting.file')}</label><input id="book-file" type="file" accept=".book,text/plain" onChange=${pick} /></div>
    <${TextArea} label=${t('drafting.text')} rows="8" class="draft-text" spellcheck="false" value=${text.value} onWrite=${(typed) => (text.value = typed)} />
    <div class="acts"><button class="button" disabled=${busy || !text.value.trim()}>${t('drafting.bring-now')}</button></div></form>`;
};

export const DraftText = ({ draft: id }) => {
  const draft = useDraft(id);
  const { change, problem, busy } = useChange(draft);
  return html`<${DraftPage} draft=${draft}>${draft.body && html`
    <p class="acts"><a class="button" href=${`${pathOf(draft.body.id)}/text`} download>${t('drafting.take-text')}</a></p>
    <${Changes} draft=${draft.body} />
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${draft.body.standing === 'open' && html`<${Bring} change=${change} busy=${busy.value} />`}`}<//>`;
};
