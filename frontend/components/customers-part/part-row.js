// A customer's part in a list: its tag, what it is, how it stands, and by when it is needed. It leads to its page.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { day } from '../../format.js';
import { Link } from '../link/link.js';

export const partPath = (tag) => `/parts/${tag}`;

/** Before which stage, and by which day where its shell has a slot. */
export const neededBy = (part) => (part.due ? t('receipt.due', { day: day(part.due), stage: say(part.before) }) : t('receipt.due-stage', { stage: say(part.before) || '–' }));

export const PartStanding = ({ part }) => html`<span class=${`standing receipt-standing receipt-standing--${part.stands}`}>${t(part.needed || part.stands === 'expected' ? `receipt.stands.${part.stands}` : 'receipt.not-needed')}</span>`;

export const PartRow = ({ part }) => html`<li><${Link} to=${partPath(part.tag)} class="receipt-row"><b>${part.tag}</b><span>${part.rule} ${say(part.part)}</span><${PartStanding} part=${part} />
  <span class="quiet">${neededBy(part)}</span><//></li>`;
