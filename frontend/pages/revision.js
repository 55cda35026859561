// One revision of a quotation by its letter, to read and to answer; the last one is written on at the quotation's own address.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { sight } from '../state/session.js';
import { fetchTheirs } from '../state/saving.js';
import { go } from '../state/route.js';
import { IssuedSheet } from '../components/issued-sheet/issued-sheet.js';
import { Notice } from '../components/notice/notice.js';
import { NotFound } from './not-found.js';

export const Revision = ({ number, letter }) => {
  const held = useSignal(null);
  const again = useSignal(0);
  const seen = `${sight.value} ${again.value}`;
  useEffect(() => {
    fetchTheirs(number).then((theirs) => (held.value = theirs), (error) => (held.value = { status: error.status, problem: error.problem ?? { title: t('away.title') } }));
  }, [number, seen]);
  if (!held.value) return html`<p class="quiet waiting">${t('waiting')}</p>`;
  const { quotation, enquiry, problem, status } = held.value;
  const revision = quotation?.revisions.find((one) => one.letter === letter);
  if (status === 404 || (quotation && !revision)) return html`<${NotFound} />`;
  if (problem) return html`<${Notice} problem=${problem} />`;
  if (revision.state === 'draft') return go(`/quotations/${number}`, { instead: true });
  return html`<${IssuedSheet} key=${letter} quotation=${quotation} revision=${revision} enquiry=${enquiry} onDraft=${() => (again.value += 1)} />`;
};
