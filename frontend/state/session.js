// Who is at the desk. `unknown` until the server has said; `ended` keeps the page and everything typed, and asks for
// the password in place.
import { signal, computed } from '@preact/signals';
import { get, post, patch, put, remove, keepForgeryToken, whenSessionEnds, Refusal } from '../api.js';
import { speak } from './language.js';

export const standing = signal('unknown');
export const session = signal(null);

export const person = computed(() => session.value?.person ?? null);
export const role = computed(() => person.value?.role ?? null);
export const pricesShown = computed(() => session.value?.prices_shown !== false);

/** The server's day, as it was told at sign-in: what a form of today's begins with. */
export const today = () => (session.value?.now ?? new Date().toISOString()).slice(0, 10);

/** How far the desk's clock is ahead of this computer's, in ms: a tablet's own may be anything. */
let ahead = 0;

/** This moment by the desk's clock, also where the desk can't be reached. */
export const deskTime = () => new Date(Date.now() + ahead).toISOString();

/** Came in with a first password: nothing else opens before he has chosen his own. */
export const firstPassword = computed(() => session.value?.first_password === true);

/** Counts the switches of what this session may see: whatever shows money asks again when it changes. */
export const sight = signal(0);

/** The language pressed before anybody was signed in: it goes before the one the person had last. */
let picked = null;

const begin = (body) => {
  keepForgeryToken(body.forgery_token);
  session.value = body;
  ahead = Date.parse(body.now) - Date.now();
  standing.value = 'in';
  if (!picked) speak(body.person.language);
};

whenSessionEnds(() => {
  if (standing.value === 'in') standing.value = 'ended';
});

export const findSession = async () => {
  try {
    const { body } = await get('/api/session', { quiet: true });
    begin(body);
  } catch (error) {
    if (!(error instanceof Refusal)) return setTimeout(findSession, 3000);
    keepForgeryToken(error.problem.forgery_token);
    if (standing.value === 'unknown') standing.value = 'out';
  }
  return null;
};

export const signIn = async (name, password) => {
  const { body } = await post('/api/session', { name, password }, { quiet: true });
  keepForgeryToken(body.forgery_token);
  // Before anything is read: what the server names (countries, lists) it names in the session's language.
  if (picked && picked !== body.person.language) await patch('/api/session', { language: picked }).catch(() => {});
  begin(body);
  picked = null;
  return body.person;
};

export const signOut = async () => {
  await remove('/api/session').catch((error) => {
    if (!(error instanceof Refusal)) throw error;
  });
  session.value = null;
  standing.value = 'out';
};

/** His own password, instead of the one that he has. */
export const choosePassword = async (current, wanted) => {
  const { body } = await put('/api/password', { current, new: wanted });
  session.value = body;
};

export const showPrices = async (shown) => {
  const { body } = await patch('/api/session', { prices_shown: shown });
  session.value = body?.person ? { ...session.value, ...body } : { ...session.value, prices_shown: shown };
  sight.value += 1;
};

export const switchLanguage = async (wanted) => {
  speak(wanted);
  if (standing.value !== 'in') picked = wanted;
  else await patch('/api/session', { language: wanted }).catch(() => {});
  sight.value += 1;
};

/** The deeds of these pages in the words of the server's one table; the server decides again on each. */
const DEEDS = {
  'read-quotations': ['read', 'quotation'],
  enquire: ['create', 'enquiry'],
  quote: ['change', 'quotation'],
  issue: ['issue', 'quotation'],
  accept: ['accept', 'quotation'],
  decline: ['decline', 'quotation'],
  'read-orders': ['read', 'order'],
  'move-slots': ['change', 'order'],
  'see-calendar': ['read', 'slot'],
  'see-stock': ['read', 'stock'],
  'build-stock': ['create', 'stock'],
  'cap-stock': ['change', 'stock-cap'],
  'ask-stock': ['ask', 'stock-offer'],
  'hold-stock': ['create', 'reservation'],
  'allocate-stock': ['change', 'allocation'],
  'sell-seconds': ['create', 'second'],
  'own-feeds': ['create', 'calendar-feed'],
  confirm: ['confirm', 'order'],
  'see-floor': ['read', 'shell'],
  'see-inspections': ['read', 'inspection'],
  'take-readings': ['change', 'inspection'],
  'sign-verdicts': ['sign', 'inspection'],
  'keep-gauges': ['change', 'gauge'],
  'release-shells': ['release', 'shell'],
  'sign-stages': ['sign', 'shell'],
  'hold-shells': ['hold', 'shell'],
  'reject-shells': ['reject', 'shell'],
  'cancel-shells': ['cancel', 'shell'],
  'ask-concessions': ['ask', 'concession'],
  'answer-concessions': ['answer', 'concession'],
  'send-back': ['create', 'rework'],
  'sign-rework': ['sign', 'rework'],
  'withdraw-rework': ['cancel', 'rework'],
  'see-changes': ['read', 'change-note'],
  'draw-changes': ['create', 'change-note'],
  'sign-changes': ['accept', 'change-note'],
  'approve-changes': ['answer', 'change-note'],
  despatch: ['despatch', 'shell'],
  'see-leaving': ['read', 'despatch'],
  pack: ['create', 'despatch'],
  'see-dealer-credit': ['read', 'dealer-credit'],
  'give-dealer-credit': ['create', 'dealer-credit'],
  'hold-evidence': ['create', 'export-evidence'],
  'see-export-terms': ['read', 'export-terms'],
  'set-export-terms': ['change', 'export-terms'],
  'set-codes': ['change', 'personal-code'],
  'check-kits': ['change', 'kit'],
  'see-parts': ['read', 'part'],
  'take-in-parts': ['create', 'part'],
  'keep-parts': ['change', 'part'],
  'sign-parts': ['sign', 'part'],
  'settle-parts': ['answer', 'part'],
  'decide-tax': ['change', 'order'],
  'take-payments': ['create', 'payment'],
  bill: ['create', 'document'],
  refund: ['create', 'refund'],
  'see-books': ['read', 'bookkeeping'],
  'set-tolerances': ['change', 'tolerance'],
  'see-prices': ['read', 'price'],
  'see-price-lists': ['read', 'price-list'],
  'see-proof': ['read', 'proof'],
  'draft-books': ['change', 'book-draft'],
  'see-work-to-come': ['read', 'work-to-come'],
  'see-build-sheets': ['read', 'build-sheet'],
  'see-tools': ['read', 'tool'],
  'switch-tools': ['change', 'tool'],
  'lose-tools': ['declare-lost', 'tool'],
  'see-safety': ['read', 'safety-fault'],
  'say-safety': ['create', 'safety-fault'],
  'lift-safety': ['change', 'safety-fault'],
  'see-safety-letters': ['read', 'safety-letter'],
  'write-safety': ['create', 'safety-letter'],
  watch: ['read', 'watch'],
  'see-outlook': ['read', 'outlook'],
  'see-book': ['read', 'book'],
  'read-customers': ['read', 'customer'],
  'change-customers': ['change', 'customer'],
  'hand-out-data': ['read', 'personal-data'],
  'erase-data': ['erase', 'personal-data'],
  'set-retention': ['change', 'retention'],
  'see-bank': ['read', 'bank-details'],
  'propose-bank': ['create', 'bank-details'],
  'agree-bank': ['answer', 'bank-details'],
  'see-approvals': ['read', 'approval'],
  'ask-approvals': ['ask', 'approval'],
  'answer-approvals': ['answer', 'approval'],
  offer: ['read', 'retail'],
  'read-requests': ['read', 'request'],
  'ask-formally': ['ask', 'request'],
  'see-people': ['read', 'person'],
  'see-tokens': ['read', 'api-token'],
  'make-tokens': ['create', 'api-token'],
};

/** A dealer's pages are fewer: what the shop's own tools and book say reaches him through the answers. */
const NOT_FOR_DEALERS = ['see-tools', 'see-book'];

export const isDealer = computed(() => role.value === 'dealer');

export const may = (deed) => {
  const [action, sort] = DEEDS[deed];
  if (isDealer.value && NOT_FOR_DEALERS.includes(deed)) return false;
  return (session.value?.may?.[action] ?? []).includes(sort);
};
