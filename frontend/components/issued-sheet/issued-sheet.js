// A revision that has gone out: stamped, frozen, to be read, printed and revised. Nothing here can be changed.
import { useEffect, useRef } from 'preact/hooks';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { book, optionLabel, choiceLabel, shellName } from '../../state/book.js';
import { may } from '../../state/session.js';
import { day, dayAndTime, lastDay } from '../../format.js';
import { countryName } from '../../state/countries.js';
import { dealerName } from '../../state/dealers.js';
import { wasJustIssued, forgetIssued } from '../../state/issued.js';
import { gatesOf } from '../../state/shown.js';
import { reread } from '../../state/jobs.js';
import { useSending } from '../../state/sending.js';
import { Standing } from '../standing/standing.js';
import { Stamp, otherVerdicts } from '../stamp/stamp.js';
import { OrderLink } from '../order-link/order-link.js';
import { Outcome } from '../outcome/outcome.js';
import { Acts, ownHouse } from '../acts/acts.js';
import { Approvals } from '../approvals/approvals.js';
import { Letters } from '../letters/letters.js';
import { ThenAndNow } from '../then-and-now/then-and-now.js';
import { Revisions } from '../revisions/revisions.js';
import { Ready } from '../ready/ready.js';
import { Totals } from '../totals/totals.js';
import { Depends, anyDepends } from '../reasons/reasons.js';
import { Changes } from '../changes/changes.js';
import { EarlierYes } from '../earlier-yes/earlier-yes.js';
import { Requests } from '../requests/requests.js';
import { Copies } from '../copies/copies.js';
import { RetailFolded } from '../retail/retail.js';
import { DonorParts } from '../donor-parts/donor-parts.js';
import { Photographs } from '../photographs/photographs.js';
import { Papers } from '../papers/papers.js';
import { ShellDrawing } from '../shell-drawing/shell-drawing.js';
import { Notice } from '../notice/notice.js';
import { Fact } from '../fact/fact.js';
import { History } from '../history/history.js';

const Head = ({ quotation, revision, series, donor }) => html`<dl class="cells cells--issued">
  <${Fact} label=${t('cell.number')} large=${true}>${quotation.number}<//>
  <${Fact} label=${t('cell.revision')} large=${true}>${revision.letter}<//>
  <${Fact} label=${t('cell.series')} large=${true}>${series ? choiceLabel('series', series) : '–'}${donor?.number_text && html` <small class="cell__donor">${donor.number_text}</small>`}<//>
  <${Fact} label=${t('cell.state')}><${Standing} state=${revision.state} /><//>
  <${Fact} label=${t('cell.issued')}>${day(revision.issued_at)}${revision.issued_by ? `, ${revision.issued_by_name ?? revision.issued_by}` : ''}<//>
  <${Fact} label=${t('cell.valid')}>${lastDay(revision.valid_until)}<//>
</dl>`;

const settledOf = (line) =>
  line.answer?.settled ?? Object.fromEntries(Object.entries(line.specification).map(([option, taken]) => [option, taken.choice]));

/** [option, choice] in the order of the book; what the book no longer names stands at the end. */
const answersOf = (line) => {
  const order = new Map(book.value.options.map((option, at) => [option.id, at]));
  return Object.entries(settledOf(line)).sort(([one], [other]) => (order.get(one) ?? 999) - (order.get(other) ?? 999));
};
const standingOf = (line, option) => line.answer?.standing[option] ?? line.specification[option]?.origin ?? 'forced';

/** As it was issued: by the book and the tools of then. */
const drawnAs = (revision, { series = null, number = null, gearbox = null } = {}, line) =>
  JSON.stringify({ specification: line.specification, donor: { series, number, gearbox }, book: revision.book, tool_state: revision.tool_state });

const Line = ({ line, at, question, known, units }) => {
  const said = line.answer;
  return html`<section class="card issued-line" aria-label=${t('issued.line', { line: at + 1, count: line.quantity })}>
    <h3>${t('issued.line', { line: at + 1, count: line.quantity })}: ${shellName(settledOf(line))}</h3>
    <div class="issued-line__answer"><div><${Stamp} verdict=${said?.verdict} gates=${gatesOf(said)} known=${known} />
        <p class="block__also">${otherVerdicts(said, known)}</p></div>
      <div>${line.stock && html`<p><b>${t(line.stock.finished ? 'from-stock.is-finished' : 'from-stock.is', { shell: line.stock.name })}</b> ${t('from-stock.until', { until: dayAndTime(line.stock.until) })}</p>`}${!line.stock && said?.ready && html`<div class="issued-line__ready"><b>${t('ready.title')}</b> <${Ready} answer=${said} shells=${line.quantity} /></div>`}
        ${anyDepends(said?.depends) && html`<${Depends} depends=${said.depends} />`}</div></div>
    <${ShellDrawing} question=${question} name=${`drawing-${at + 1}`} />
    <${DonorParts} question=${question} units=${units} name=${`parts-${at + 1}`} />
    <table class="ruled"><tbody>${answersOf(line).map(([option, choice]) => html`<tr key=${option}>
      <th scope="row">${optionLabel(option)}</th><td>${choiceLabel(option, choice)}</td><td class="quiet ruled__state">${t(`choice.${standingOf(line, option)}`)}</td></tr>`)}</tbody></table>
  </section>`;
};

const letterAfter = (letter) => (letter.length === 1 && letter < 'Z' ? String.fromCharCode(letter.charCodeAt(0) + 1) : '…');

const NEXT = { lapsed: 'revision.copy-today', accepted: 'revision.next-accepted' };

const nextText = ({ letter, state }) =>
  t(NEXT[state] ?? 'revision.next', { letter: state === 'lapsed' ? letterAfter(letter) : letter, next: letterAfter(letter) });

const NextRevision = ({ number, revision, onDraft }) => {
  const { send, problem } = useSending();
  const press = async () => (await send(`/api/quotations/${number}/revisions`, {})) && onDraft(await reread(number));
  return html`<button class="button" onClick=${press}>${nextText(revision)}</button>
    ${revision.state === 'accepted' && html`<p class="quiet">${t('revision.next-accepted-hint', { letter: revision.letter, next: letterAfter(revision.letter) })}</p>`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}`;
};

/** Said once, at the top and with the focus on it, so that nobody wonders what became of the form. */
const JustIssued = ({ quotation, revision, customer }) => {
  const said = useRef(null);
  useEffect(() => {
    said.current.scrollIntoView({ block: 'center' });
    said.current.focus({ preventScroll: true });
    return forgetIssued;
  }, []);
  return html`<section class="just-issued" ref=${said} tabindex="-1" role="status" aria-label=${t('issued.done', { number: quotation.number, letter: revision.letter })}>
    <p class="just-issued__word">${t('issued.done', { number: quotation.number, letter: revision.letter })}</p>
    <p>${t(ownHouse(customer) ? 'issued.next-stock' : may('accept') ? 'issued.next' : 'issued.next-none', { day: lastDay(revision.valid_until) })}</p></section>`;
};

const Reach = ({ customer }) => {
  const lines = [customer.telephone, customer.email, ...(customer.address ?? '').split('\n')].filter((text) => text?.trim());
  return lines.length ? lines.map((line) => html`<p key=${line}>${line}</p>`) : html`<p class="quiet">${t('issued.no-contact')}</p>`;
};

const Whom = ({ customer, revision, dealer }) => html`
  <p><b>${customer?.name ?? '–'}</b> <span class="quiet">${t(customer?.trade ? 'customer.is-trade' : 'customer.private')}</span></p>
  ${dealer && html`<p>${t('issued.through', { dealer })}</p>`}
  ${customer && html`<${Reach} customer=${customer} />`}
  ${customer?.country && html`<p>${t('customer.country')} ${countryName(customer.country)}</p>`}
  ${revision.delivery_place?.country && html`<p>${t('delivery.country')} ${[countryName(revision.delivery_place.country), revision.delivery_place.region].filter(Boolean).join(', ')}</p>`}
  ${revision.delivery_place?.term && html`<p>${t('delivery.term')} ${revision.delivery_place.term}</p>`}`;

export const IssuedSheet = ({ quotation, revision, enquiry, onDraft }) => {
  const series = revision.lines[0]?.specification?.series?.choice ?? enquiry?.donor?.series;
  const fresh = useRef(revision.state === 'issued' && wasJustIssued(quotation.number, revision.letter)).current;
  return html`<div class="issued">
    <h1 class="unseen">${t('issued.heading', { number: quotation.number, letter: revision.letter })}</h1>
    ${fresh && html`<${JustIssued} quotation=${quotation} revision=${revision} customer=${enquiry?.customer?.name} />`}
    <${Revisions} quotation=${quotation} here=${revision.letter} />
    <${Head} quotation=${quotation} revision=${revision} series=${series} donor=${enquiry?.donor} />
    <div class="issued__body">
      <div>
        <section class="card" aria-labelledby="papers-title"><h2 id="papers-title">${t('papers.title')}</h2>
          <${Papers} revision=${revision} /></section>
        <${RetailFolded} number=${quotation.number} letter=${revision.letter} version=${revision.version} />
        <section class="card" aria-label=${t('photographs.title')}><${Photographs} enquiry=${quotation.enquiry} pointed=${[enquiry?.donor?.built?.photograph, enquiry?.donor?.stands?.photograph]} /></section>
        <${ThenAndNow} number=${quotation.number} letter=${revision.letter} />
        <${Changes} changes=${revision.changes} />
        ${revision.lines.map((line, at) => html`<${Line} key=${line.id} line=${line} at=${at} question=${drawnAs(revision, enquiry?.donor, line)} known=${Boolean(enquiry?.donor?.established && enquiry.donor.series)} units=${enquiry?.customer?.units} />`)}
      </div>
      <div>
        <${Outcome} quotation=${quotation} revision=${revision} /><${OrderLink} quotation=${quotation} />
        <${EarlierYes} revision=${revision} />
        <section class="card" aria-labelledby="whom-title"><h2 id="whom-title">${t('cell.customer')}</h2>
          <${Whom} customer=${enquiry?.customer} revision=${revision} dealer=${dealerName(quotation.dealer)} /><p class="quiet">${t('issued.read-only')}</p>
          ${may('quote') && revision.letter === quotation.revisions.at(-1).letter && html`<${NextRevision} number=${quotation.number} revision=${revision} onDraft=${onDraft} />`}</section>
        <section class="card" aria-labelledby="totals-title"><h2 id="totals-title">${t('totals.label-all')}</h2><${Totals} totals=${revision.totals} answer=${null} /></section>
        <${Approvals} number=${quotation.number} letter=${revision.letter} etag=${`"${revision.version}"`} />
        <${Acts} quotation=${quotation} revision=${revision} customer=${enquiry?.customer?.name} onDone=${onDraft} />
        <${Letters} quotation=${quotation} revision=${revision} customer=${enquiry?.customer} />
        ${may('quote') && html`<${Copies} number=${quotation.number} letter=${revision.letter} lines=${revision.lines.length} />`}
        ${may('read-requests') && html`<${Requests} number=${quotation.number} letter=${revision.letter} />`}
        ${quotation.history?.length > 0 && html`<${History} history=${quotation.history} />`}
      </div>
    </div>
  </div>`;
};
