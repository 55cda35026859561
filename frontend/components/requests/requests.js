// A formal quotation that a dealer asks the office for: asked on his draft, listed on the desk, answered by issuing.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { isDealer, may } from '../../state/session.js';
import { book, choiceLabel, optionLabel } from '../../state/book.js';
import { day, dayAndTime } from '../../format.js';
import { useSending } from '../../state/sending.js';
import { usePages } from '../../state/pages.js';
import { useReading } from '../../state/reading.js';
import { useReady } from '../../state/coming.js';
import { TextArea } from '../field/field.js';
import { Folded } from '../folded/folded.js';
import { Link } from '../link/link.js';
import { More, countText } from '../more/more.js';
import { Notice } from '../notice/notice.js';

const NAMED = ['series', 'body', 'steering', 'market'];

const named = () => NAMED.map((role) => book.value.roles[role]).filter(Boolean);

/** The shell by its name, and what of it is not as the original had it. */
const lineText = ({ quantity, choices, chosen }) => {
  const name = named().map((option) => choices[option] && choiceLabel(option, choices[option])).filter(Boolean).join(' · ');
  const rest = chosen.filter((option) => !named().includes(option)).map((option) => `${optionLabel(option)}: ${choiceLabel(option, choices[option])}`).join(', ');
  return [`${quantity} × ${name || t('request.open')}`, rest].filter(Boolean).join(' – ');
};

const stageText = (one) => {
  if (one.stage === 'waiting') return t('request.waiting');
  const said = t(`request.${one.stage}`, { by: one.ended_by_name, day: day(one.ended_at) });
  return one.why ? `${said} ${t('request.quoted', { text: one.why })}` : said;
};

const End = ({ one, onDone }) => {
  const why = useSignal('');
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/requests/${one.id}/end`, { why: why.value });
    if (after) onDone();
  };
  return html`<form class="act" onSubmit=${press}>
    <${TextArea} label=${t('request.why')} rows="2" maxlength="10000" required=${!isDealer.value} value=${why.value} onWrite=${(text) => (why.value = text)} />
    <button class="button" disabled=${busy.value}>${t(isDealer.value ? 'request.withdraw-now' : 'request.refuse-now')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Said = ({ one, onDone }) => html`<p class="request__said"><b>${t('request.asked', { by: one.asked_by_name, when: dayAndTime(one.asked_at) })}</b> ${stageText(one)}</p>
  ${one.note && html`<p class="request__note">${t('request.quoted', { text: one.note })}</p>`}
  ${one.stage === 'waiting' && html`<${Folded} label=${t(isDealer.value ? 'request.withdraw' : 'request.refuse')}>${() => html`<${End} one=${one} onDone=${onDone} />`}<//>`}`;

const Ask = ({ number, letter, onDone }) => {
  const note = useSignal('');
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const asked = await send(`/api/quotations/${number}/revisions/${letter}/requests`, { note: note.value });
    if (asked) onDone();
  };
  return html`<form class="act" onSubmit=${press}><p class="quiet">${t('request.means')}</p>
    <${TextArea} label=${t('request.note')} rows="2" maxlength="10000" value=${note.value} onWrite=${(text) => (note.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('request.ask')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

/** What was asked for of one quotation. `draft`: its letter can still be asked for, where it is a draft. */
export const Requests = ({ number, letter, draft = false }) => {
  const { body, again } = useReading(`/api/quotations/${number}/requests`, letter);
  const asked = body.value?.requests ?? [];
  const asks = draft && may('ask-formally') && !asked.some(({ stage }) => stage === 'waiting');
  if (!asked.length && !asks) return null;
  return html`<section class="card" aria-labelledby="requests-title"><h2 id="requests-title">${t('request.title')}</h2>
    ${asked.map((one) => html`<${Said} key=${one.id} one=${one} onDone=${again} />`)}
    ${asks && html`<${Ask} number=${number} letter=${letter} onDone=${again} />`}</section>`;
};

const Row = ({ one }) => html`<li class="slip"><${Link} to=${`/quotations/${one.number}`} class="slip__link slip__link--request">
  <b class="slip__number">${one.number} ${one.letter}</b>
  <span class="slip__name">${isDealer.value ? one.customer : one.dealer_name}<small>${[isDealer.value ? '' : one.customer, one.donor_number].filter(Boolean).join(' · ')}</small></span>
  <span class="request__lines">${one.lines.map((line, at) => html`<span key=${at}>${lineText(line)}</span>`)}${one.note && html`<small>${t('request.quoted', { text: one.note })}</small>`}</span>
  <span class="slip__day">${t('request.since', { day: day(one.asked_at) })}</span><//></li>`;

/** What waits for the office, the oldest first; nothing where nothing waits. */
export const RequestsWaiting = ({ onReady }) => {
  const pages = usePages('/api/requests?waiting=1', 'requests', (one) => one.id);
  useReady({ body: { value: pages.rows }, problem: { value: pages.problem } }, onReady);
  return pages.rows?.length > 0 && html`<section aria-labelledby="asked-title"><h2 id="asked-title">${t('request.list')} <small>${countText(pages)}</small></h2>
    <ul class="slips" id="requests-list">${pages.rows.map((one) => html`<${Row} key=${one.id} one=${one} />`)}</ul><${More} pages=${pages} list="requests-list" of=${t('request.list')} /></section>`;
};
