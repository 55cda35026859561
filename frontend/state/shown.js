// What the form shows of an option: the reader's own click at once, the engine's word as soon as it is there.
// Pure: document and answer in, what is seen out.

const optionAnswer = (answer, option) => answer?.options.find((row) => row.option === option) ?? null;

/** An answer of one's own before the server has said how it stands, and where the answers clash. */
const ownState = (mine, said) => (said?.usual ? 'usual' : mine.origin);

/** How a choice stands: own answers never wait for the server. A contradicted answer of one's own shows as closed. */
const stateOf = (mine, choice, said, fresh) => {
  if (mine?.choice === choice) return fresh && said ? said.state : ownState(mine, said);
  if (!said || (mine && said.state !== 'closed')) return 'open';
  return !fresh && said.answered ? 'open' : said.state;
};

const ADDING = { part: 'parts', approval: 'approvals' };

/** The kinds of gates that this choice adds to what the specification depends on already: part, approval. */
const added = (answer, said) =>
  Object.entries(ADDING)
    .filter(([, kind]) => said?.depends?.[kind]?.some((id) => !answer?.depends?.[kind]?.includes(id)))
    .map(([kind]) => kind);

/** Where nothing can be built, an answer is marked as contradicted only if changing it alone would mend that. */
const markedWhereItHelps = (choices, mine) =>
  choices.some((choice) => choice.state !== 'closed')
    ? choices
    : choices.map((choice) => (choice.id === mine?.choice ? { ...choice, state: ownState(mine, { usual: choice.original }) } : choice));

/** {id and how it stands} for each choice of the option of the book, in its order. */
export const shownOption = (option, mine, answer, fresh) => {
  const row = optionAnswer(answer, option.id);
  const choices = option.choices.map(({ id, lost }) => {
    const said = row?.choices.find((choice) => choice.choice === id) ?? null;
    const state = stateOf(mine, id, said, fresh);
    return {
      id,
      state,
      lost: Boolean(lost),
      taken: mine ? mine.choice === id : ['usual', 'chosen', 'forced'].includes(state),
      original: Boolean(said?.usual),
      difference: said?.difference ?? null,
      priced: Boolean(said) && state !== 'closed',
      adds: state === 'closed' ? [] : added(answer, said),
      causes: said?.causes ?? [],
      depends: said?.depends ?? null,
      priceFrom: said?.price_from ?? null,
    };
  });
  return markedWhereItHelps(choices, mine);
};

/** The key of the word for how a choice stands: one that no shell can have is not merely at odds with the rest. */
export const wordOf = ({ state, lost }) => (state === 'closed' && lost ? 'choice.lost' : `choice.${state}`);

/** What the whole depends on, as [{id, kind}]: parts first, then approvals, tools that are down. */
export const gatesOf = (answer) => [
  ...(answer?.depends?.parts ?? []).map((id) => ({ id, kind: 'part' })),
  ...(answer?.depends?.approvals ?? []).map((id) => ({ id, kind: 'approval' })),
  ...(answer?.depends?.tools ?? []).map((id) => ({ id, kind: 'tool' })),
];

/** Whether it is known which car is held against; else it is the original car of the series. */
export const donorKnown = (job) => Boolean(job.document.value.donor.established && job.document.value.donor.series);

/** Whether the reader has answered nothing yet; the series that came with the car's number is not his answer. */
export const isUntouched = (line) => Object.keys(line.answers).every((option) => option === 'series' && line.answers.series.origin === 'usual');

/** What can still be answered: open, and not settled by this very click. */
export const openQuestions = (answer, line) => (answer?.open_questions ?? []).filter((option) => !line.answers[option]);

/** Options whose answer was taken over from another car, as when its number is set right: nobody chose it, nothing forces it. */
export const takenOfAnother = (answer, line) =>
  (answer?.options ?? [])
    .filter(({ option, choices }) => {
      const mine = line.answers[option];
      const said = choices.find(({ choice }) => choice === mine?.choice);
      return mine?.origin === 'usual' && said && !said.usual && said.state !== 'forced' && choices.some(({ usual }) => usual);
    })
    .map(({ option }) => option);
