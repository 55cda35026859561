// The donor car in three pictures against the line in sight, asked for once its answer is there: no answer waits for it.
import { useEffect, useRef } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { post, returned } from '../api.js';

const questionOf = (job) => {
  const { donor: { built, stands } } = job.document.value;
  return JSON.stringify({ ...JSON.parse(job.question.value), built, stands });
};

/** The rows in which any two pictures differ; what was said last stays until the next is there. Null: not known yet. */
export const usePictures = (job) => {
  const rows = useSignal(null);
  const asked = useRef(null);
  if (job.fresh.value) asked.current = questionOf(job);
  const [question, back] = [asked.current, returned.value];
  useEffect(() => {
    if (!question) return undefined;
    const giveUp = new AbortController();
    post('/api/pictures', JSON.parse(question), { signal: giveUp.signal }).then(({ body }) => (rows.value = body.rows), () => null);
    return () => giveUp.abort();
  }, [question, back]);
  return rows.value;
};
