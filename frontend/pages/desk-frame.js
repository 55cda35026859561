// The frame round every page: who may see which, the head, the tabs, the banners.
import { useEffect } from 'preact/hooks';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { standing, may, person } from '../state/session.js';
import { fetchBook, book } from '../state/book.js';
import { fetchDealers } from '../state/dealers.js';
import { recallTabs } from '../state/jobs.js';
import { place } from '../state/route.js';
import { Masthead } from '../components/masthead/masthead.js';
import { JobTabs } from '../components/job-tabs/job-tabs.js';
import { Banner } from '../components/banner/banner.js';
import { SignIn } from './sign-in.js';
import { Work } from './work.js';
import { Job } from './job.js';
import { Enquiry } from './enquiry.js';
import { Book } from './book.js';
import { Tools } from './tools.js';
import { Code } from './code.js';
import { NotFound } from './not-found.js';

const PAGES = { desk: Work, job: Job, enquiry: Enquiry, book: Book, tools: Tools, code: Code, 'not-found': NotFound };

const Page = () => {
  if (!book.value) return html`<p class="quiet waiting">${t('waiting')}</p>`;
  const Shown = may('read-quotations') || place.value.page !== 'desk' ? PAGES[place.value.page] : Tools;
  // A job that is filed changes its address and stays the same page: the cursor must not jump out of the field.
  const key = place.value.page === 'job' ? 'job' : JSON.stringify(place.value);
  return html`<${Shown} key=${key} ...${place.value} />`;
};

const useStart = () => {
  const name = person.value?.name;
  useEffect(() => {
    if (!name) return;
    recallTabs();
    fetchBook().catch(() => {});
    if (may('enquire')) fetchDealers().catch(() => {});
  }, [name]);
};

export const Desk = () => {
  useStart();
  if (standing.value === 'unknown') return html`<${Banner} /><p class="quiet waiting">${t('waiting')}</p>`;
  if (standing.value === 'out') return html`<${SignIn} />`;
  return html`<a class="skip" href="#content">${t('nav.skip')}</a>
    <${Masthead} /><${Banner} /><${JobTabs} />
    <main id="content" tabindex="-1"><${Page} /></main>`;
};
