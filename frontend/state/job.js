// One job on the desk: a document being written, with its history, its answers and how safely it is kept.
// The document is one frozen whole that is replaced, never changed, so that undo is a list of wholes.
import { signal, computed } from '@preact/signals';
import { questionPart } from './shape.js';

/** `server`: what is known there ({enquiry, quotation, revision, enquiryEtag, revisionEtag}); `saved`: the document it holds. */
export const createJob = (key, document, server = {}, saved = null) => {
  const job = {
    id: crypto.randomUUID(),
    key: signal(key),
    document: signal(document),
    past: signal([]),
    future: signal([]),
    server: signal(server),
    saved: signal(saved),
    saving: signal({ state: 'idle' }),
    lineKey: signal(document.lines[0].key),
    answers: signal({}),
    trouble: signal(null),
    looking: signal(null),
    asked: signal(false),
    taken: signal(null),
    wrong: signal(new Set()),
    typing: null,
  };
  job.line = computed(() => job.document.value.lines.find((line) => line.key === job.lineKey.value) ?? job.document.value.lines[0]);
  job.question = computed(() => JSON.stringify(questionPart(job.document.value, job.line.value)));
  job.held = computed(() => job.answers.value[job.line.value.key] ?? null);
  job.answer = computed(() => job.held.value?.answer ?? null);
  job.fresh = computed(() => job.held.value?.question === job.question.value);
  job.unsaved = computed(() => job.document.value !== job.saved.value);
  job.revision = computed(() => job.server.value.revision ?? null);
  job.enquiryOnly = computed(() => Boolean(job.server.value.enquiry) && !job.server.value.quotation);
  job.issued = computed(() => job.revision.value !== null && job.revision.value.state !== 'draft');
  return job;
};
