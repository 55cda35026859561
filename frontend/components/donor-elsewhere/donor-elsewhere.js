// The donor car is on another enquiry's quotation: a warning for the office, never a bar. A dealer's page never asks.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { isDealer, may } from '../../state/session.js';
import { get } from '../../api.js';
import { day } from '../../format.js';
import { dealerName } from '../../state/dealers.js';
import { Link } from '../link/link.js';

const PAUSE = 400;

const asked = (number, enquiry) => `/api/donor-elsewhere?${new URLSearchParams({ number, ...(enquiry ? { enquiry } : {}) })}`;

/** Asks when the typing pauses; what was found for an earlier number is taken away at once. */
const useFound = (number, enquiry, found) =>
  useEffect(() => {
    found.value = [];
    if (isDealer.value || !may('enquire') || !number.trim()) return undefined;
    const giveUp = new AbortController();
    const timer = setTimeout(() => get(asked(number, enquiry), { signal: giveUp.signal }).then(({ body }) => (found.value = body.quotations), () => {}), PAUSE);
    return () => {
      clearTimeout(timer);
      giveUp.abort();
    };
  }, [number, enquiry]);

const folded = (name) => name.trim().toLocaleLowerCase();

const whose = ({ customer, dealer }, own) =>
  folded(customer) === folded(own)
    ? t('elsewhere.same', { name: customer })
    : t('elsewhere.other', { name: [customer, dealerName(dealer)].filter(Boolean).join(', ') });

/** A letter that is out and unanswered needs no more words than its day. */
const stands = ({ issued_at: at, state }) =>
  at ? [t('elsewhere.issued', { day: day(at) }), ...(state === 'issued' ? [] : [t(`state.${state}`)])].join(', ') : t('state.draft');

const Row = ({ row, own }) => html`<li><${Link} to=${`/quotations/${row.number}`}>${row.number} ${row.letter}<//>${`, ${[stands(row), whose(row, own)].join(', ')}`}</li>`;

export const DonorElsewhere = ({ job }) => {
  const found = useSignal([]);
  const { donor, customer } = job.document.value;
  useFound(donor.number_text, job.server.value.enquiry?.id, found);
  return html`<div role="status">${found.value.length > 0 && html`<section class="elsewhere" aria-labelledby="elsewhere-title">
    <h3 id="elsewhere-title">${t('elsewhere.title')}</h3>
    <ul>${found.value.map((row) => html`<${Row} key=${row.number} row=${row} own=${customer.name} />`)}</ul>
    <p class="quiet">${t('elsewhere.no-bar')}</p></section>`}</div>`;
};
