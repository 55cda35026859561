// The donor car in three pictures against the line in sight, asked for once its answer is there: no answer waits for it.
import { useRef } from 'preact/hooks';
import { useAnswer } from './reading.js';

const questionOf = (job) => {
  const { donor: { built, stands } } = job.document.value;
  return JSON.stringify({ ...JSON.parse(job.question.value), built, stands });
};

/** The rows in which any two pictures differ. Null: not known yet. */
export const usePictures = (job) => {
  const asked = useRef(null);
  if (job.fresh.value) asked.current = questionOf(job);
  return useAnswer('/api/pictures', asked.current)?.rows ?? null;
};
