// The rule book as the pages need it: labels and reasons by id. No price and no rule's condition is known here.
import { signal, computed } from '@preact/signals';
import { get } from '../api.js';
import { say } from './language.js';

export const book = signal(null);

const byId = (rows) => new Map((rows ?? []).map((row) => [row.id, row]));
const options = computed(() => byId(book.value?.options));
const reasons = computed(() => new Map([...byId(book.value?.tools), ...byId(book.value?.rules)]));
const choices = computed(
  () => new Map((book.value?.options ?? []).flatMap((option) => option.choices.map((row) => [`${option.id}.${row.id}`, row]))),
);

let asked = null;
export const fetchBook = () => {
  asked ??= get('/api/books/current')
    .then(({ body }) => {
      book.value = body;
    })
    .catch((error) => {
      asked = null;
      throw error;
    });
  return asked;
};

export const optionOf = (id) => options.value.get(id);
export const optionLabel = (id) => say(options.value.get(id)?.label) || id;
export const choiceLabel = (option, id) => say(choices.value.get(`${option}.${id}`)?.label) || id;
/** The sentence a customer reads for a rule or a tool. */
export const reasonOf = (id) => say(reasons.value.get(id)?.reason) || id;
/** A tool goes by its name, a rule by its number. */
const tools = computed(() => byId(book.value?.tools));
export const isTool = (id) => tools.value.has(id);
export const nameOf = (id) => (isTool(id) ? say(tools.value.get(id).label) || id : id);
export const titleOf = (id) => say(reasons.value.get(id)?.title ?? reasons.value.get(id)?.label) || '';

/** What a shell is called by what is settled of it: Roadster, S3, Home. */
export const shellName = (settled) => ['body', 'series', 'market'].map((option) => settled[option] && choiceLabel(option, settled[option])).filter(Boolean).join(', ');
