// The deeds on a job. Each replaces the document by a new whole; typing in one field is one step of history.
import { batch } from '@preact/signals';
import { post } from '../api.js';
import { freshLine, questionPart, readCustomer, usualPart } from './shape.js';

const LONGEST_HISTORY = 200;

/** Puts `document` in place. `field` names the field being typed in: further letters there are the same step. */
export const change = (job, document, field = null) =>
  batch(() => {
    const sameStep = field !== null && job.typing === field;
    if (!sameStep) job.past.value = [...job.past.value, job.document.value].slice(-LONGEST_HISTORY);
    job.typing = field;
    job.future.value = [];
    job.document.value = document;
  });

const step = (job, from, to) => {
  if (!from.value.length) return;
  batch(() => {
    to.value = [...to.value, job.document.value];
    job.document.value = from.value.at(-1);
    from.value = from.value.slice(0, -1);
    job.typing = null;
  });
};
export const undo = (job) => step(job, job.past, job.future);
export const redo = (job) => step(job, job.future, job.past);

/** Notes that what is typed in a field can't be taken as it is, or that it can again. */
export const setWrong = (job, field, wrong) => {
  if (job.wrong.value.has(field) === wrong) return;
  const fields = new Set(job.wrong.value);
  if (wrong) fields.add(field);
  else fields.delete(field);
  job.wrong.value = fields;
};

/** Sets one field by its place, e.g. ['customer', 'name']. */
export const write = (job, [part, name], value) => {
  const document = job.document.value;
  change(job, { ...document, [part]: { ...document[part], [name]: value } }, `${part}.${name}`);
};
export const writeTop = (job, name, value) => change(job, { ...job.document.value, [name]: value }, name);

/** How a feature of the donor car stands now; null: nothing is said of it. Who says so, or his words: `writeOfStands`. */
export const sayStands = (job, option, choice) => {
  const { donor } = job.document.value;
  const { [option]: before, ...others } = donor.stands.values;
  writeOfStands(job, 'values', choice === null ? others : { ...others, [option]: choice }, option);
};
export const writeOfStands = (job, name, value, field = name) => {
  const document = job.document.value;
  const stands = { ...document.donor.stands, [name]: value };
  change(job, { ...document, donor: { ...document.donor, stands } }, `donor.stands.${field}`);
};

/** Who says so, and with him goes the photograph that another pointed to. */
export const sayWhoStands = (job, source) => {
  const document = job.document.value;
  const stands = { ...document.donor.stands, said_by: source, photograph: null };
  change(job, { ...document, donor: { ...document.donor, stands } }, 'donor.stands.said_by');
};

/** Quoted through that dealer: a trade customer, from the dealer's list. None: direct, the rest stays as it was. */
export const sellThrough = (job, dealer) => {
  const document = job.document.value;
  const terms = dealer ? { price_list: dealer.price_list, customer: { ...document.customer, trade: true } } : {};
  change(job, { ...document, ...terms, dealer: dealer?.id ?? null });
};

/** The enquiry is one that is known already: all that is known of him stands there, in one step that one undo takes back. */
export const beKnown = (job, customer) => change(job, { ...job.document.value, customer: readCustomer(customer, {}) });

const withLine = (document, key, alter) => ({
  ...document,
  lines: document.lines.map((line) => (line.key === key ? alter(line) : line)),
});
const withAnswers = (job, alter) =>
  change(job, withLine(job.document.value, job.line.value.key, (line) => ({ ...line, answers: alter(line.answers) })));

export const take = (job, option, choice) =>
  withAnswers(job, (answers) => ({ ...answers, [option]: { choice, origin: 'chosen' } }));

export const clear = (job, option) =>
  withAnswers(job, ({ [option]: gone, ...answers }) => answers);

export const clearAll = (job) => withAnswers(job, () => ({}));

/** The donor's number as read by the server; the car's series is taken over unless the reader has chosen one. */
export const establish = (job, reading, text) => {
  const document = job.document.value;
  const identified = reading?.reading === 'identified';
  const donor = {
    ...document.donor,
    number_text: text,
    series: identified ? reading.series : null,
    number: identified ? reading.number : null,
    established: identified,
  };
  const lines = identified ? document.lines.map((line) => withSeries(line, reading.series)) : document.lines;
  change(job, { ...document, donor, lines }, 'donor.number_text');
};

const withSeries = (line, series) =>
  line.answers.series?.origin === 'chosen'
    ? line
    : { ...line, answers: { ...line.answers, series: { choice: series, origin: 'usual' } } };

const asUsual = (values) =>
  Object.fromEntries(Object.entries(values).map(([option, choice]) => [option, { choice, origin: 'usual' }]));

const CAR = ['body', 'market', 'series'];
const kept = (answers, everything) =>
  Object.fromEntries(
    Object.entries(answers).filter(([option, { origin }]) => origin === 'chosen' && (!everything || CAR.includes(option))),
  );

/** Which choices those answers close, as option.choice. */
const closedBy = async (job, answers) => {
  const { body } = await post('/api/answers', questionPart(job.document.value, { ...job.line.value, answers }));
  const closed = body.options.flatMap(({ option, choices }) => choices.filter((row) => row.state === 'closed').map((row) => `${option}.${row.choice}`));
  return new Set(closed);
};

/** Usual choices that the reader's own close, though the car alone leaves them open: these stay open questions. */
const ruledOut = async (job, values, own) => {
  if (Object.keys(own).every((option) => CAR.includes(option))) return [];
  const car = Object.fromEntries(Object.entries(asUsual(values)).filter(([option]) => CAR.includes(option)));
  const [byOwn, byCar] = await Promise.all([closedBy(job, { ...car, ...own }), closedBy(job, car)]);
  return Object.entries(values)
    .filter(([option, choice]) => !own[option] && byOwn.has(`${option}.${choice}`) && !byCar.has(`${option}.${choice}`))
    .map(([option]) => option);
};

/** Fills in what the original car had: for what the reader has not chosen, or for `everything` but the car itself.
    Answers the options left open because the reader's own choices rule the usual out; null while the car is not known. */
export const takeUsual = async (job, everything) => {
  const question = usualPart(job.document.value, job.line.value);
  if (!question) return null;
  const { body } = await post('/api/usual', question);
  const own = kept(job.line.value.answers, everything);
  const left = await ruledOut(job, body.values, own);
  const values = Object.fromEntries(Object.entries(body.values).filter(([option]) => !left.includes(option)));
  withAnswers(job, () => ({ ...asUsual(values), ...own }));
  return left;
};

export const addLine = (job, copied = null) => {
  const line = { ...freshLine(), ...(copied ? { answers: copied.answers } : {}) };
  batch(() => {
    change(job, { ...job.document.value, lines: [...job.document.value.lines, line] });
    job.lineKey.value = line.key;
  });
};

export const removeLine = (job, key) => {
  const lines = job.document.value.lines.filter((line) => line.key !== key);
  if (lines.length) change(job, { ...job.document.value, lines });
};

export const setQuantity = (job, key, quantity) =>
  change(job, withLine(job.document.value, key, (line) => ({ ...line, quantity })), `quantity.${key}`);

export const setExtra = (job, extra, quantity) => {
  const others = job.document.value.extras.filter((row) => row.extra !== extra);
  change(job, { ...job.document.value, extras: quantity ? [...others, { extra, quantity }] : others }, `extra.${extra}`);
};

/** Puts an alternative in place of all answers: one step, so that one undo brings them back. */
export const takeWhole = (job, answers, words) =>
  batch(() => {
    withAnswers(job, () => answers);
    job.asked.value = false;
    job.looking.value = null;
    job.taken.value = words;
  });

/** Looks at a choice, or with `choice` null at the answers as a whole; `asked`: the note opens and says why. */
export const look = (job, option, choice, asked = false) =>
  batch(() => {
    job.looking.value = option ? { option, choice } : null;
    job.asked.value = asked;
    job.taken.value = null;
  });
export const lookAtAll = (job) => look(job, null, null, true);
export const lookAway = (job) => (job.asked.value = false);
