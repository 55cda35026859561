// What a job looks like while it is being written, and how it maps to and from what the server keeps. Pure: no signal,
// no request.

export const freshLine = () => ({ key: crypto.randomUUID(), quantity: 1, answers: {} });

/** The donor car as somebody says it was or is: option → choice, and who says so. */
const freshPicture = () => ({ values: {}, said_by: null, note: '', photograph: null });

export const freshDocument = (language, priceList = 'GBP') => ({
  customer: { name: '', trade: false, country: 'GB', language, units: 'metric', telephone: '', email: '', address: '', tax_number: '' },
  dealer: null,
  wanted_by: '',
  note: '',
  donor: {
    number_text: '', series: null, number: null, established: false, gearbox: null, intent: null,
    built: freshPicture(), stands: freshPicture(), ordered: freshPicture(),
  },
  price_list: priceList,
  delivery_place: { country: 'GB', region: '', term: '' },
  revision_note: '',
  lines: [freshLine()],
  extras: [],
});

const filled = (fields) => Object.fromEntries(Object.entries(fields).map(([name, value]) => [name, value ?? '']));

export const readCustomer = (customer, empty) => {
  const { dealer: ignored, ...own } = customer ?? {};
  return { ...empty, ...filled(own), trade: Boolean(own.trade) };
};

/** Only the answers themselves: which choice, and whether it was chosen or taken over as usual. */
export const readAnswers = (specification) =>
  Object.fromEntries(
    Object.entries(specification ?? {}).map(([option, answer]) =>
      typeof answer === 'string'
        ? [option, { choice: answer, origin: 'chosen' }]
        : [option, { choice: answer.choice, origin: answer.origin ?? 'chosen' }],
    ),
  );

const readLine = (line) => ({
  key: String(line.id ?? crypto.randomUUID()),
  quantity: line.quantity,
  answers: readAnswers(line.specification),
});

const readDonor = (donor, empty) => ({
  ...empty,
  number_text: donor?.number_text ?? '',
  series: donor?.series ?? null,
  number: donor?.number ?? null,
  established: Boolean(donor?.established),
  gearbox: donor?.gearbox ?? null,
  intent: donor?.intent ?? null,
  ...Object.fromEntries(['built', 'stands', 'ordered'].map((name) => [name, { ...empty[name], ...donor?.[name] }])),
});

/** A first line for a car whose number is established: its series is taken over, nothing else is answered. */
const firstLine = (donor) => {
  const line = freshLine();
  return donor?.established && donor.series ? { ...line, answers: { series: { choice: donor.series, origin: 'usual' } } } : line;
};

/** `revision` null: an enquiry that nothing was quoted for yet, on the terms of its customer. */
export const readDocument = (enquiry, revision, priceList = 'GBP') => {
  const empty = freshDocument('en', priceList);
  const lines = (revision?.lines ?? []).map(readLine);
  const home = enquiry?.customer?.country || 'GB';
  return {
    customer: readCustomer(enquiry?.customer, empty.customer),
    dealer: enquiry?.customer?.dealer ?? enquiry?.dealer ?? null,
    wanted_by: enquiry?.wanted_by ?? '',
    note: enquiry?.note ?? '',
    donor: readDonor(enquiry?.donor, empty.donor),
    price_list: revision?.price_list ?? empty.price_list,
    delivery_place: filled({ country: home, region: '', term: '', ...revision?.delivery_place }),
    revision_note: revision?.note ?? '',
    lines: lines.length ? lines : [firstLine(enquiry?.donor)],
    extras: (revision?.extras ?? []).map(({ extra, quantity }) => ({ extra, quantity })),
  };
};

/** A document that was kept by an earlier release, with the fields that came since as the server `held` them. */
export const brought = (document, held = freshDocument('en')) => {
  const both = (part) => ({ ...held[part], ...document[part] });
  return { ...held, ...document, customer: both('customer'), donor: both('donor'), delivery_place: both('delivery_place') };
};

const orNull = (text) => (text === '' ? null : text);

/** What the server keeps with the enquiry. */
export const enquiryPart = (document) => ({
  customer: { ...document.customer, id: document.customer.id || null, dealer: document.dealer },
  wanted_by: orNull(document.wanted_by),
  note: document.note,
  donor: { ...document.donor },
});

const deliveryPart = ({ country, region, term }) => ({ country, ...(region && { region }), ...(term && { term }) });

/** What the server keeps with the revision. */
export const revisionPart = (document) => ({
  price_list: document.price_list,
  delivery_place: deliveryPart(document.delivery_place),
  note: document.revision_note,
  lines: document.lines.map((line) => ({ specification: line.answers, quantity: line.quantity })),
  extras: document.extras,
});

const donorFacts = ({ series, number, gearbox }) => ({ series, number, gearbox });

/** What the engine is asked about one line. */
export const questionPart = (document, line) => ({
  specification: line.answers,
  donor: donorFacts(document.donor),
  price_list: document.price_list,
  customer: { trade: Boolean(document.customer.trade) },
  ...(document.dealer ? { dealer: document.dealer } : {}),
  delivery_place: { country: document.delivery_place.country },
  customer_country: document.customer.country,
  quantity: line.quantity,
});

/** What is asked to fill a line with what the original car had; null while the car is not known well enough. */
export const usualPart = (document, line) => {
  const chosen = (option) => line.answers[option]?.choice ?? null;
  const series = chosen('series') ?? document.donor.series;
  const [market, body] = [chosen('market'), chosen('body')];
  return series && market && body ? { series, market, body, donor: donorFacts(document.donor) } : null;
};

export const sameShape = (one, other) => JSON.stringify(one) === JSON.stringify(other);
