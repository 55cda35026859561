// One draft of the rule book as the server has it, and the one way to change it: on the version that was seen.
import { useEffect } from 'preact/hooks';
import { signal, useSignal } from '@preact/signals';
import { ask, get } from '../api.js';
import { useReading } from './reading.js';
import { problemOf } from './sending.js';
import { sight } from './session.js';

const forms = signal(null);
let asked = null;
const fetchForms = () => {
  asked ??= get('/api/book-forms').then(({ body }) => (forms.value = new Map(body.forms.map((form) => [form.kind, form]))), (error) => {
    asked = null;
    throw error;
  });
  return asked;
};

/** kind → its form; null until it is there. */
export const useForms = () => {
  useEffect(() => void fetchForms().catch(() => {}), []);
  return forms.value;
};

export const pathOf = (id) => `/api/book-drafts/${id}`;

/** {body, etag} of the draft, `problem` where it can't be had, and how to fetch it anew. */
export const useDraft = (id) => {
  const held = useSignal({ body: null, etag: null, problem: null });
  const keep = ({ body, etag }) => (held.value = { body, etag, problem: null });
  const fetch = () => get(pathOf(id)).then(keep, (error) => (held.value = { ...held.value, problem: problemOf(error) }));
  useEffect(() => void fetch(), [id, sight.value]);
  return { ...held.value, keep, fetch };
};

/** What there is to read of a draft, anew in each of its versions: {body, problem}. `draft` null: not here yet. */
export const useOfDraft = (draft, tail) => {
  const { body, problem } = useReading(draft && pathOf(draft.id) + tail, draft?.version);
  return { body: problem.value ? null : body.value, problem: problem.value };
};

/** Sends a change once; what was typed stays until it was taken. `change(method, path, body)` gives the answer or null. */
export const useChange = (draft) => {
  const [problem, busy] = [useSignal(null), useSignal(false)];
  const change = async (method, path, body) => {
    busy.value = true;
    try {
      const answer = await ask(method, pathOf(draft.body.id) + path, { body, etag: draft.etag });
      problem.value = null;
      draft.keep(answer);
      return answer.body;
    } catch (error) {
      problem.value = problemOf(error);
      return null;
    } finally {
      busy.value = false;
    }
  };
  return { change, problem, busy };
};
