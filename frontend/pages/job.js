// One quotation: the form while it is a draft, the issued sheet once it has gone out.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { may } from '../state/session.js';
import { away } from '../api.js';
import { jobAt, heldJob, isFiled, layAside, putAway } from '../state/jobs.js';
import { undo, redo } from '../state/edit.js';
import { whyNotRead } from '../state/reading.js';
import { path } from '../state/route.js';
import { Donor } from '../components/donor/donor.js';
import { DonorElsewhere } from '../components/donor-elsewhere/donor-elsewhere.js';
import { Changes } from '../components/changes/changes.js';
import { FirstAnswers } from '../components/first-answers/first-answers.js';
import { Particulars } from '../components/particulars/particulars.js';
import { Lines } from '../components/lines/lines.js';
import { FromStock } from '../components/from-stock/from-stock.js';
import { Extras } from '../components/extras/extras.js';
import { Specification } from '../components/specification/specification.js';
import { JobDonorParts } from '../components/donor-parts/donor-parts.js';
import { PriceLines } from '../components/price-lines/price-lines.js';
import { TitleBlock } from '../components/title-block/title-block.js';
import { MarginNote } from '../components/margin-note/margin-note.js';
import { SaveState, SaveTrouble, ConflictBar } from '../components/save-state/save-state.js';
import { JobApprovals } from '../components/approvals/approvals.js';
import { JobThenAndNow } from '../components/then-and-now/then-and-now.js';
import { Issue } from '../components/issue/issue.js';
import { IssuedSheet } from '../components/issued-sheet/issued-sheet.js';
import { Revisions } from '../components/revisions/revisions.js';
import { Requests } from '../components/requests/requests.js';
import { Copies } from '../components/copies/copies.js';
import { RetailFolded } from '../components/retail/retail.js';
import { Papers } from '../components/papers/papers.js';
import { Live } from '../components/live/live.js';
import { Missing } from './not-found.js';
import { donorKnown, isUntouched } from '../state/shown.js';
import { useMatches } from '../state/stock.js';
import { verdictSentence } from '../components/stamp/sentence.js';

const isTyping = (target) => target.matches('input:not([type=checkbox]), textarea, select');

const useHistoryKeys = (job) =>
  useEffect(() => {
    const press = (event) => {
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z' || isTyping(event.target)) return;
      event.preventDefault();
      (event.shiftKey ? redo : undo)(job);
    };
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, [job]);

const DraftPapers = ({ job }) => {
  const { quotation, revision } = job.server.value;
  return quotation && html`<details class="card"><summary>${t('papers.preview')}</summary><${Papers} revision=${revision} draft=${true} /></details>`;
};

/** The dealer's offer, his formal request, and copies: of what is filed. */
const OfTheDraft = ({ job }) => {
  const { quotation, revision } = job.server.value;
  if (!quotation) return null;
  const of = { number: quotation.number, letter: revision.letter, version: revision.version };
  return html`<${RetailFolded} ...${of} />${may('read-requests') && html`<${Requests} ...${of} draft=${true} />`}<${Copies} ...${of} />`;
};

const headingOf = (job) => {
  const { quotation, revision, enquiry } = job.server.value;
  if (quotation) return t('job.heading', { number: quotation.number, letter: revision.letter });
  return enquiry ? t('job.enquiry', { reference: enquiry.reference }) : t('job.new');
};

const Spoken = ({ job }) => html`<${Live} text=${job.fresh.value && !isUntouched(job.line.value) ? verdictSentence(job.answer.value, donorKnown(job)) : ''} />`;

const Away = ({ job }) => html`<div class="job__away">
  <button class="button" onClick=${layAside}>${t('asides.lay')}</button>
  <button class="button" onClick=${() => putAway(job)}>${t(isFiled(job) ? 'asides.file' : 'asides.throw')}</button></div>`;

const Head = ({ job }) => html`<div class="job__head"><div><h1>${headingOf(job)}</h1><${SaveState} job=${job} /></div><${Away} job=${job} /></div>
  ${job.enquiryOnly.value && html`<p class="quiet job__none">${t('enquiry.no-quotation')}</p>`}
  <${Revisions} quotation=${job.server.value.quotation} here=${job.revision.value?.letter} />`;

const Form = ({ job, onIssued }) => {
  useHistoryKeys(job);
  const taken = useSignal(0);
  const matches = useMatches(job, taken.value);
  return html`<${ConflictBar} job=${job} /><div class="job">
    <div class="job__sheet">
      <${Head} job=${job} />
      <${SaveTrouble} job=${job} />
      <${JobThenAndNow} job=${job} />
      <${Donor} job=${job} />
      <${DonorElsewhere} job=${job} />
      <${FirstAnswers} job=${job} />
      <${Particulars} job=${job} />
      <${Lines} job=${job} />
      <${Specification} job=${job} />
      <${FromStock} job=${job} matches=${matches} onTaken=${() => (taken.value += 1)} />
      <${Extras} job=${job} />
      <${PriceLines} job=${job} />
      <${JobDonorParts} job=${job} />
      <${Changes} changes=${job.server.value.revision?.changes} />
      <${DraftPapers} job=${job} />
      <${OfTheDraft} job=${job} />
      <${JobApprovals} job=${job} />
      ${may('issue') && html`<${Issue} job=${job} onIssued=${onIssued} />`}
      <${MarginNote} job=${job} />
    </div>
    <${TitleBlock} job=${job} matches=${matches} />
    <${Spoken} job=${job} />
  </div>`;
};

const isReadOnly = (job) => job.issued.value || !may('quote');

/** Lays the job of this address on the desk, if it does not lie there yet. `turn` draws the page anew. */
const useHeldJob = (where, at, turn, problem) => {
  const back = away.value;
  useEffect(() => {
    problem.value = null;
    if (!back && !heldJob(at)) jobAt(where).then(turn, (error) => (problem.value = whyNotRead(error)));
  }, [at, back]);
};

export const Job = (where) => {
  const at = path.value;
  const turns = useSignal(0);
  const problem = useSignal(null);
  const turn = () => (turns.value += 1);
  useHeldJob(where, at, turn, problem);
  const job = turns.value >= 0 && heldJob(at);
  if (!job) return html`<${Missing} problem=${problem.value} />`;
  const { quotation, revision, enquiry } = job.server.value;
  return isReadOnly(job)
    ? html`<${IssuedSheet} key=${job.id} quotation=${quotation} revision=${revision} enquiry=${enquiry} onDraft=${turn} />`
    : html`<${Form} key=${job.id} job=${job} onIssued=${turn} />`;
};
