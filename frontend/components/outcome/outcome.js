// How a revision that went out ended, as a stamp of its own: accepted, declined, lapsed, superseded differ in shape.
import { useEffect, useRef } from 'preact/hooks';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { isDealer } from '../../state/session.js';
import { day, lastDay } from '../../format.js';
import { wasJustIssued, forgetIssued } from '../../state/issued.js';

const saidText = ({ said_at: at, said_by: by }) => (by ? t('outcome.said', { day: day(at), by }) : day(at));

const linesOf = (quotation, revision) => {
  const { outcome } = revision;
  const next = quotation.revisions[quotation.revisions.findIndex(({ letter }) => letter === revision.letter) + 1];
  if (revision.state === 'lapsed') return [t('outcome.lapsed-on', { day: lastDay(revision.valid_until) })];
  const before = outcome?.state === 'accepted' ? [t('outcome.was-accepted', { day: day(outcome.said_at), by: outcome.said_by })] : [];
  if (revision.state === 'superseded') return [...(next ? [t('outcome.superseded-by', { letter: next.letter })] : []), ...before];
  return [outcome && saidText(outcome), outcome?.reason && t(`acts.reason.${outcome.reason}`)].filter(Boolean);
};

/** A yes is no order yet: who does what now. */
const Next = () => html`<div class="outcome-next"><h3>${t('outcome.next')}</h3><ol>
  <li>${t(isDealer.value ? 'outcome.next-confirm-dealer' : 'outcome.next-confirm')}</li><li>${t('outcome.next-deposit')}</li><li>${t('outcome.next-date')}</li></ol></div>`;

const ENDED = ['accepted', 'declined', 'lapsed', 'superseded'];

/** Just answered: the sheet comes to where it stands, with the focus on it. */
const useArrival = (quotation, revision, frame) => {
  const fresh = useRef(wasJustIssued(quotation.number, revision.letter)).current;
  useEffect(() => {
    if (!frame.current || !fresh) return;
    frame.current.scrollIntoView({ block: 'center' });
    frame.current.focus({ preventScroll: true });
    forgetIssued();
  }, []);
};

export const Outcome = ({ quotation, revision }) => {
  const frame = useRef(null);
  useArrival(quotation, revision, frame);
  return ENDED.includes(revision.state) && html`<section class="outcome-frame" ref=${frame} tabindex="-1" aria-label=${t('acts.title')}><div class=${`outcome outcome--${revision.state}`}>
    <p class="outcome__word">${t(`outcome.${revision.state}`)}</p>
    ${linesOf(quotation, revision).map((line) => html`<p key=${line} class="outcome__line">${line}</p>`)}
  </div>${revision.outcome?.note && html`<p class="quiet">${revision.outcome.note}</p>`}
  ${revision.state === 'accepted' && html`<${Next} />`}</section>`;
};
