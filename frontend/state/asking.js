// Keeps the answer to what is written up to date. The last question wins: an earlier answer that comes late is dropped.
import { effect, untracked } from '@preact/signals';
import { post, returned, Refusal } from '../api.js';
import { sight, standing } from './session.js';

const keepAnswer = (job, key, question, answer) => {
  job.answers.value = { ...job.answers.value, [key]: { question, answer } };
  job.trouble.value = null;
};

/** Asks about the line in sight whenever the question changes or the server is back. Returns what stops it. */
export const followQuestion = (job) => {
  let giveUp = new AbortController();
  const ask = async (key, question) => {
    giveUp.abort();
    giveUp = new AbortController();
    const mine = giveUp;
    try {
      const { body } = await post('/api/answers', JSON.parse(question), { signal: mine.signal });
      if (mine === giveUp) keepAnswer(job, key, question, body);
    } catch (error) {
      if (mine === giveUp && error instanceof Refusal) job.trouble.value = error;
    }
  };
  return effect(() => {
    const [key, question] = [job.line.value.key, job.question.value];
    void [sight.value, returned.value];
    if (standing.value === 'in') untracked(() => ask(key, question));
  });
};
