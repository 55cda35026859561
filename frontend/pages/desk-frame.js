// The frame round every page: who may see which, the head, the tray, the banners.
import { useEffect } from 'preact/hooks';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { firstPassword, standing, may, person, role } from '../state/session.js';
import { fetchBook, book } from '../state/book.js';
import { fetchDealers } from '../state/dealers.js';
import { recallTabs } from '../state/jobs.js';
import { go, place } from '../state/route.js';
import { Masthead } from '../components/masthead/masthead.js';
import { Tray } from '../components/tray/tray.js';
import { Banner } from '../components/banner/banner.js';
import { Unsent } from '../components/unsent/unsent.js';
import { SignIn } from './sign-in.js';
import { Work } from './work.js';
import { Job } from './job.js';
import { Revision } from './revision.js';
import { Coming, ComingSheet } from './coming.js';
import { Order } from './order.js';
import { Orders } from './orders.js';
import { CalendarPage } from './calendar.js';
import { OutlookPage } from './outlook.js';
import { Book } from './book.js';
import { BookDrafts } from './book-drafts.js';
import { BookDraft } from './book-draft.js';
import { BookPiece, NewPiece } from './book-piece.js';
import { DraftPrices } from './draft-prices.js';
import { DraftText } from './draft-text.js';
import { DraftWords } from './draft-words.js';
import { Rehearsal } from './rehearsal.js';
import { Floor } from './floor.js';
import { Safety } from './safety.js';
import { KitPage } from './kit.js';
import { PartPage } from './part.js';
import { PartsPage } from './parts.js';
import { InspectionPage } from './inspection.js';
import { Inspections } from './inspections.js';
import { Tools } from './tools.js';
import { ApprovalsPage } from './approvals.js';
import { Chasing } from './chasing.js';
import { CustomerPage } from './customer.js';
import { Retention } from './retention.js';
import { Bank } from './bank.js';
import { AsBuilt } from './record.js';
import { Leaving } from './leaving.js';
import { House } from './house.js';
import { OwnPassword } from './own-password.js';
import { People } from './people.js';
import { PersonPage } from './person.js';
import { Code } from './code.js';
import { ShellChanges } from './shell-changes.js';
import { SheetCode } from './sheet-code.js';
import { Watching } from './watching.js';
import { NotFound } from './not-found.js';

const PAGES = {
  approvals: ApprovalsPage,
  bank: Bank,
  floor: Floor, book: Book,
  'book-draft': BookDraft,
  'book-draft-prices': DraftPrices,
  'book-draft-text': DraftText,
  'book-draft-words': DraftWords,
  'book-drafts': BookDrafts,
  'book-piece': BookPiece,
  'book-piece-new': NewPiece,
  'book-rehearsal': Rehearsal,
  calendar: CalendarPage,
  chasing: Chasing,
  code: Code,
  coming: Coming,
  'coming-sheet': ComingSheet,
  customer: CustomerPage,
  desk: Work,
  house: House,
  inspection: InspectionPage,
  inspections: Inspections,
  job: Job,
  leaving: Leaving,
  'not-found': NotFound,
  order: Order,
  orders: Orders,
  outlook: OutlookPage,
  password: OwnPassword,
  kit: KitPage,
  part: PartPage,
  parts: PartsPage,
  people: People,
  person: PersonPage,
  retention: Retention,
  revision: Revision,
  safety: Safety,
  'shell-changes': ShellChanges,
  tools: Tools,
  watching: Watching,
};

/** Whoever quotes begins at the desk's list, the workshop at its shells, an inspector at what he is to measure. */
const firstOf = () => (may('read-quotations') ? '/' : role.value === 'inspector' ? '/inspections' : may('sign-stages') ? '/floor' : '/tools');

const Page = () => {
  if (!book.value) return html`<p class="quiet waiting">${t('waiting')}</p>`;
  if (place.value.page === 'desk' && firstOf() !== '/') return go(firstOf(), { instead: true });
  const Shown = PAGES[place.value.page];
  // A job that is filed changes its address and stays the same page: the cursor must not jump out of the field.
  const key = place.value.page === 'job' ? 'job' : JSON.stringify(place.value);
  return html`<${Shown} key=${key} ...${place.value} />`;
};

const useStart = () => {
  const name = person.value?.name;
  useEffect(() => {
    if (!name || firstPassword.value) return;
    recallTabs();
    fetchBook().catch(() => {});
    if (may('enquire')) fetchDealers().catch(() => {});
  }, [name, firstPassword.value]);
};

export const Desk = () => {
  useStart();
  if (place.value.page === 'sheet-code') return html`<${SheetCode} code=${place.value.code} />`;
  if (place.value.page === 'record') return html`<${AsBuilt} code=${place.value.code} />`;
  if (standing.value === 'unknown') return html`<${Banner} /><p class="quiet waiting">${t('waiting')}</p>`;
  if (standing.value === 'out') return html`<${SignIn} />`;
  if (firstPassword.value) return html`<${Masthead} /><${Banner} /><main id="content" tabindex="-1"><${OwnPassword} /></main>`;
  return html`<a class="skip" href="#content">${t('nav.skip')}</a>
    <${Masthead} /><${Banner} /><${Unsent} /><${Tray} />
    <main id="content" tabindex="-1"><${Page} /></main>`;
};
