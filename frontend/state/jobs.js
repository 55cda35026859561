// The jobs lying on this desk, and which were laid aside. A job stays in memory as it was left, so that taking it up again
// is one action and loses nothing.
import { signal, effect } from '@preact/signals';
import { createJob } from './job.js';
import { brought, freshDocument, readCustomer, readDocument } from './shape.js';
import { fetchTheirs, fetchEnquiry, followSaving } from './saving.js';
import { followQuestion } from './asking.js';
import { followSight } from './seen.js';
import { recall, forget, keepAsides, recallAsides } from './kept.js';
import { followSteps, forgetSteps, withSteps } from './steps.js';
import { person } from './session.js';
import { dealerOf } from './dealers.js';
import { language } from './language.js';
import { go, path } from './route.js';

/** [{path, title: [number, name]}] in the order they were opened: a card for each job that is being written on this desk.
 *  What went out is found again from the list. */
export const asides = signal([]);
/** {card, key, title} of the unfiled job that was thrown away last; null once it is brought back or gone for good. */
export const thrown = signal(null);
const held = new Map();

const addressOf = (key, number) => (number ? `/quotations/${number}` : `/enquiries/new/${key}`);
const enquiryAddress = (id) => `/enquiries/${id}`;

const keepTabs = () => person.peek() && keepAsides(person.peek().name, asides.peek());

export const recallTabs = () => {
  asides.value = person.value ? recallAsides(person.value.name) : [];
};

const showTab = (at) => {
  if (asides.peek().some((tab) => tab.path === at)) return;
  asides.value = [...asides.peek(), { path: at, title: [] }];
};

const dropTab = (at) => {
  asides.value = asides.peek().filter((tab) => tab.path !== at);
  keepTabs();
};

/** What a card says: [number of quotation or enquiry, for whom or, while there is no name, the donor's number]. */
export const titleOf = (tab) => {
  const job = held.get(tab.path);
  if (!job) return [tab.title].flat();
  const { customer, donor } = job.document.value;
  const { quotation, enquiry } = job.server.value;
  return [quotation?.number ?? enquiry?.reference ?? '', customer.name || donor.number_text];
};

/** A job that was saved for the first time gets its number's address. */
const rename = (job, from, to) => {
  held.delete(from);
  held.set(to, job);
  forget(person.value.name, job.key.peek());
  forgetSteps(person.value.name, job.key.peek());
  asides.value = asides.peek().map((tab) => (tab.path === from ? { ...tab, path: to } : tab));
  job.key.value = job.server.peek().quotation.number;
  if (path.peek() === from) go(to, { instead: true });
};

const keepTitles = () =>
  effect(() => {
    const titled = asides.value.map((tab) => ({ ...tab, title: titleOf(tab) }));
    if (person.value) keepAsides(person.value.name, titled);
  });

const follow = (job, at) => {
  job.filed = () => rename(job, at, addressOf(job.key.peek(), job.server.peek().quotation.number));
  const stops = [followQuestion(job), followSight(job), followSaving(job), followSteps(job), keepTitles()];
  job.stop = () => stops.forEach((stop) => stop());
};

const lay = (job, at) => {
  held.set(at, withSteps(job));
  if (job.issued.peek()) dropTab(at);
  else showTab(at);
  follow(job, at);
  return job;
};

/** A dealer's own job starts on his terms: his list, his country, his units. */
const ownDocument = () => {
  const start = freshDocument(language.value);
  const { dealer, dealer_country: country, dealer_price_list: price_list } = person.value;
  if (!dealer) return start;
  const units = dealerOf(dealer)?.units ?? start.customer.units;
  const customer = { ...start.customer, trade: true, country, units };
  return { ...start, dealer, customer, price_list, delivery_place: { country, region: '', term: '' } };
};

const freshJob = (key) => {
  const kept = recall(person.value.name, key);
  return kept ? createJob(key, brought(kept.document), kept.server, kept.saved) : createJob(key, ownDocument());
};

/** Typed work that was not saved comes back; if the server's has changed since, the next save shows both. */
const withKept = (number, theirs, document) => {
  const kept = recall(person.value.name, number);
  if (!kept || theirs.revision.state !== 'draft') return createJob(number, document, theirs, document);
  const etags = { enquiryEtag: kept.server.enquiryEtag, revisionEtag: kept.server.revisionEtag };
  return createJob(number, brought(kept.document, document), { ...theirs, ...etags }, document);
};

const storedJob = async (number) => {
  const theirs = await fetchTheirs(number);
  return withKept(number, theirs, readDocument(theirs.enquiry, theirs.revision));
};

/** An enquiry that has a quotation leads to it; one that has none is written on as it is. */
const enquiryJob = async (id) => {
  const theirs = await fetchEnquiry(id);
  const { quotations, dealer } = theirs.enquiry;
  if (quotations.length) return go(`/quotations/${quotations.at(-1)}`, { instead: true });
  const document = readDocument(theirs.enquiry, null, dealerOf(dealer)?.price_list);
  const kept = recall(person.value.name, `enquiry-${id}`);
  const server = kept ? { ...theirs, enquiryEtag: kept.server.enquiryEtag } : theirs;
  return lay(createJob(`enquiry-${id}`, kept ? brought(kept.document, document) : document, server, document), enquiryAddress(id));
};

/** The job at that address: from memory, from this computer, or from the server. */
export const jobAt = async ({ fresh, number, enquiry }) => {
  if (enquiry) return held.get(enquiryAddress(enquiry)) ?? enquiryJob(enquiry);
  const at = addressOf(fresh, number);
  return held.get(at) ?? lay(fresh ? freshJob(fresh) : await storedJob(number), at);
};

export const heldJob = (at) => held.get(at) ?? null;

export const newJob = () => go(addressOf(crypto.randomUUID().slice(0, 8)));

/** A fresh job for one who is known: on his dealer's list, to his country. */
export const newJobFor = (customer) => {
  const key = crypto.randomUUID().slice(0, 8);
  const start = ownDocument();
  const country = customer.country || start.delivery_place.country;
  const document = {
    ...start,
    customer: readCustomer(customer, start.customer),
    dealer: customer.dealer,
    price_list: dealerOf(customer.dealer)?.price_list ?? start.price_list,
    delivery_place: { ...start.delivery_place, country },
  };
  lay(createJob(key, document), addressOf(key));
  go(addressOf(key));
};

/** Takes a job off the desk. Unsaved work stays on this computer until it is opened again. */
const takeOff = (at) => {
  held.get(at)?.stop?.();
  held.delete(at);
  dropTab(at);
  if (path.value === at) go('/');
};

/** Whether the server knows of it: then it is found from the desk, else nowhere but here. */
export const isFiled = (job) => Boolean(job.server.value.enquiry);

const forgetThrown = () => {
  if (thrown.value && person.value) {
    forget(person.value.name, thrown.value.key);
    forgetSteps(person.value.name, thrown.value.key);
  }
  thrown.value = null;
};

/** Puts a filed job back where it is found again; throws an unfiled one away, to be brought back while nothing else is. */
export const putAway = (job) => {
  const at = path.value;
  const title = titleOf({ path: at }).filter(Boolean).join(' · ');
  forgetThrown();
  takeOff(at);
  if (!isFiled(job)) thrown.value = { card: { path: at, title: [] }, key: job.key.value, title };
};

export const bringBack = () => {
  const { card } = thrown.value;
  thrown.value = null;
  go(card.path);
};

/** It stays in the tray as it is. */
export const layAside = () => go('/');

/** Reads the job anew from the server, after it was issued or copied. */
export const reread = async (number) => {
  const at = addressOf(null, number);
  held.get(at)?.stop?.();
  held.delete(at);
  forgetSteps(person.value.name, number);
  return jobAt({ number });
};

export const clearDesk = () => {
  forgetThrown();
  held.forEach((job) => job.stop?.());
  held.clear();
  asides.value = [];
};
