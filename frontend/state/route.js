// Where the reader is. Pages are addresses, so that each can be bookmarked and the back button works.
import { signal, computed } from '@preact/signals';

export const path = signal(location.pathname);

const PAGES = [
  ['desk', /^\/$/],
  ['job', /^\/enquiries\/new\/(?<fresh>[\w-]+)$/],
  ['job', /^\/enquiries\/(?<enquiry>\d+)$/],
  ['job', /^\/quotations\/(?<number>[\w.-]+)$/],
  ['revision', /^\/quotations\/(?<number>[\w.-]+)\/(?<letter>[A-Z]{1,4})$/],
  ['coming', /^\/work-to-come$/],
  ['coming-sheet', /^\/work-to-come\/(?<number>[\w.-]+)$/],
  ['customer', /^\/customers\/(?<customer>\d+)$/],
  ['retention', /^\/retention$/],
  ['bank', /^\/bank-details$/],
  ['approvals', /^\/approvals$/],
  ['chasing', /^\/chasing$/],
  ['watching', /^\/watching$/],
  ['people', /^\/people$/],
  ['person', /^\/people\/(?<name>[\w.-]+)$/],
  ['password', /^\/password$/],
  ['house', /^\/house$/],
  ['orders', /^\/orders$/],
  ['order', /^\/orders\/(?<number>[\w.-]+)$/],
  ['shell-changes', /^\/shells\/(?<shell>\d+)\/changes$/],
  ['calendar', /^\/calendar(?:\/(?<monday>\d{4}-\d\d-\d\d))?$/],
  ['outlook', /^\/outlook$/],
  ['book', /^\/book$/],
  ['book-drafts', /^\/book-drafts$/],
  ['book-draft', /^\/book-drafts\/(?<draft>\d+)$/],
  ['book-piece', /^\/book-drafts\/(?<draft>\d+)\/pieces\/(?<piece>\d+)$/],
  ['book-piece-new', /^\/book-drafts\/(?<draft>\d+)\/new\/(?<kind>[a-z]+)$/],
  ['book-draft-prices', /^\/book-drafts\/(?<draft>\d+)\/prices$/],
  ['book-draft-words', /^\/book-drafts\/(?<draft>\d+)\/words$/],
  ['book-draft-text', /^\/book-drafts\/(?<draft>\d+)\/text$/],
  ['book-rehearsal', /^\/book-drafts\/(?<draft>\d+)\/rehearsal$/],
  ['floor', /^\/floor$/],
  ['kit', /^\/floor\/(?<shell>\d+)\/kit$/],
  ['parts', /^\/parts$/],
  ['part', /^\/parts\/(?<quotation>[\w.-]+)\/(?<shell>\d+\.\d+)\/(?<rule>[\w-]+)$/],
  ['leaving', /^\/leaving$/],
  ['record', /^\/r\/(?<code>[\w.-]+)$/],
  ['inspections', /^\/inspections$/],
  ['inspection', /^\/inspections\/(?<serial>[\w.-]+)$/],
  ['tools', /^\/tools$/],
  ['safety', /^\/safety$/],
  ['sheet-code', /^\/s\/(?<code>[\w.-]+)$/],
  ['code', /^\/q\/(?<code>[\w.-]+)$/],
];

const readPath = (text) => {
  for (const [page, pattern] of PAGES) {
    const match = pattern.exec(text);
    if (match) return { page, ...match.groups };
  }
  return { page: 'not-found' };
};

/** {page, …the parts of the address}. */
export const place = computed(() => readPath(path.value));

export const go = (to, { instead = false } = {}) => {
  if (to === path.value) return;
  history[instead ? 'replaceState' : 'pushState']({}, '', to);
  path.value = location.pathname;
  if (!instead) window.scrollTo(0, 0);
};

export const followAddress = () =>
  window.addEventListener('popstate', () => {
    path.value = location.pathname;
  });
