// What a draft would do if it were published now: proof, what is lost and gained, whom it touches; and publishing it.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { useUnderway } from '../state/reading.js';
import { pathOf, useChange, useDraft } from '../state/book-drafts.js';
import { useProved } from '../state/proved.js';
import { dayAndTime, money, wholeNumber } from '../format.js';
import { DraftPage } from '../components/book-draft/draft-head.js';
import { Proof } from '../components/proof/proof.js';
import { Told } from '../components/against/against.js';
import { TextArea, TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';

const AGAIN = 700;

const Against = ({ draft }) => {
  const { body, problem } = useProved(`${pathOf(draft.id)}/against`);
  return html`<section class="card" aria-labelledby="against"><h2 id="against">${t('rehearsal.against')}</h2>
    ${problem ? html`<${Notice} problem=${problem} />` : body ? html`<${Told} found=${body} />` : html`<p role="status">${t('proof.underway')}</p>`}</section>`;
};

const amounts = (one) => (one.before === null ? '' : one.before === one.after ? money(one.after, one.currency) : `${money(one.before, one.currency)} → ${money(one.after, one.currency)}`);

const verdictText = (one) => (one ? t(`verdict.${one}.short`) : t('moved.unknown'));

const Row = ({ one }) => html`<li class="touched"><${Link} to=${`/quotations/${one.number}/${one.letter}`} class="touched__link"><b>${one.number} ${one.letter}</b><span class=${`standing standing--${one.standing}`}>${t(`state.${one.standing}`)}</span><span>${one.customer}</span><span class="touched__sum">${amounts(one)}${one.before !== null && html` <small>${t('totals.before-tax')}</small>`}</span><//>
  <ul class="findings">${one.verdicts.map((moved) => html`<li class="finding" key=${moved.line}>${t('rehearsal.verdict', { line: moved.line, before: verdictText(moved.before), after: verdictText(moved.after) })}</li>`)}
    ${one.reasons.map((reason) => html`<li class="finding" key=${reason}>${reason}</li>`)}
    ${!one.comparable && html`<li class="finding finding--fault">${t('rehearsal.not-comparable')}</li>`}
    ${one.advice.map((advice) => html`<li class="finding" key=${advice}>${t(`moved.advice.${advice}`)}</li>`)}</ul></li>`;

const ORDER = ['accepted', 'issued', 'draft'];

const Touched = ({ found }) => html`<section class="card" aria-labelledby="touched"><h2 id="touched">${t('rehearsal.touched')} <small>${found.touched.length}</small></h2>
  <p class="quiet">${t('rehearsal.looked-at', { count: found.looked_at })}</p>
  ${ORDER.map((standing) => [standing, found.touched.filter((one) => one.standing === standing)]).filter(([, rows]) => rows.length).map(([standing, rows]) => html`<details key=${standing} class="folded" open=${rows.length < 15}><summary>${t(`rehearsal.group.${standing}`)} <small>${rows.length}</small></summary>
    <ul>${rows.map((one) => html`<${Row} key=${one.number} one=${one} />`)}</ul></details>`)}
  ${!found.touched.length && html`<p>${t('rehearsal.nothing-touched')}</p>`}</section>`;

const knownText = (one) => one.wrong.map((part) => t(`rehearsal.wrong.${part}`, {
  known: part === 'answer' ? t(`drafting.answer.${one.known_answer}`) : part === 'because' ? one.known_because.join(', ') : money(one.known_price, one.currency),
  now: part === 'answer' ? t(`drafting.answer.${one.answer}`) : part === 'because' ? one.because.join(', ') || '–' : one.price === null ? t('price.not-priced') : money(one.price, one.currency),
})).join(' ');

const Known = ({ found }) => {
  const wrong = found.known.filter((one) => one.wrong.length);
  return html`<section class="card" aria-labelledby="known"><h2 id="known">${t('rehearsal.known')} <small>${found.known.length}</small></h2>
    ${wrong.length ? html`<ul class="findings">${wrong.map((one) => html`<li key=${one.id} class=${`finding ${one.fault ? 'finding--fault' : ''}`}><b>${say(one.label)}</b>: ${knownText(one)}</li>`)}</ul>` : html`<p>${t('rehearsal.known-hold')}</p>`}</section>`;
};

const Stored = ({ found }) => html`<section class="card" aria-labelledby="stored"><h2 id="stored">${t('rehearsal.stored')}</h2>
  <p>${found.stored ? t('rehearsal.stored-said', { count: wholeNumber(found.stored.looked_at), lost: wholeNumber(found.stored.lost), gained: wholeNumber(found.stored.gained) }) : t('rehearsal.stored-not')}</p></section>`;

const Publish = ({ change, problem, busy }) => {
  const [note, from] = [useSignal(''), useSignal('')];
  const send = (event) => {
    event.preventDefault();
    change('POST', '/publish', { note: note.value, valid_from: from.value ? new Date(from.value).toISOString() : null });
  };
  return html`<form class="card" onSubmit=${send}><h2>${t('rehearsal.publish')}</h2><p class="quiet">${t('rehearsal.publish-lead')}</p>
    <${TextArea} label=${t('rehearsal.note')} rows="2" value=${note.value} onWrite=${(text) => (note.value = text)} />
    <${TextField} label=${t('rehearsal.from')} hint=${t('rehearsal.from-hint')} type="datetime-local" value=${from.value} onWrite=${(text) => (from.value = text)} />
    ${problem && html`<${Notice} problem=${problem} />`}
    <div class="acts"><button class="button button--heavy" disabled=${busy || !note.value.trim()}>${t('rehearsal.publish-now')}</button></div></form>`;
};

const State = ({ found, begin, open }) => html`<div class="card rehearsal__state" aria-live="polite">
  <p>${t(`rehearsal.state.${found.state}`, { done: found.done, of: found.of, at: found.at ? dayAndTime(found.at) : '', by: found.by_name ?? '' })}</p>
  ${found.state === 'underway' && html`<progress max=${found.of || 1} value=${found.done}></progress>`}
  ${open && found.state !== 'underway' && html`<button class=${`button ${found.state === 'done' ? '' : 'button--heavy'}`} onClick=${begin}>${t(found.state === 'done' ? 'rehearsal.again' : 'rehearsal.begin')}</button>`}</div>`;

export const Rehearsal = ({ draft: id }) => {
  const draft = useDraft(id);
  const { body: { value: body }, problem, begin } = useUnderway(draft.body && `${pathOf(draft.body.id)}/rehearsal`, AGAIN, draft.body?.version);
  const { change, problem: refused, busy } = useChange(draft);
  const open = draft.body?.standing === 'open';
  return html`<${DraftPage} draft=${draft}>${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${draft.body?.standing === 'published' && html`<p role="status" class="draft-kept">${t('rehearsal.is-published', { number: draft.body.book })}</p>`}
    ${body && open && (draft.body.mistakes ? html`<p>${t('rehearsal.mistakes-first')}</p>` : html`<${State} found=${body} begin=${() => begin()} open=${open} />`)}
    ${body?.state === 'done' && open && html`<${Touched} found=${body} /><${Known} found=${body} /><${Stored} found=${body} />
      <${Against} key=${draft.body.version} draft=${draft.body} /><${Proof} key=${draft.body.sha256} path=${pathOf(draft.body.id)} />
      <${Publish} change=${change} problem=${refused.value} busy=${busy.value} />`}<//>`;
};
