// The revisions of a quotation, each with how it stands: the last is written on, the earlier ones are read.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { Link } from '../link/link.js';
import { Standing } from '../standing/standing.js';

const addressOf = (quotation, revision) =>
  revision === quotation.revisions.at(-1) ? `/quotations/${quotation.number}` : `/quotations/${quotation.number}/${revision.letter}`;

export const Revisions = ({ quotation, here }) =>
  quotation?.revisions?.length > 1 &&
  html`<nav class="revisions" aria-label=${t('revisions.title')}><ol>${quotation.revisions.map((revision) => html`<li key=${revision.letter}>
    <${Link} to=${addressOf(quotation, revision)} aria-current=${revision.letter === here ? 'page' : undefined}>${t('revisions.one', { letter: revision.letter })}<//>
    <${Standing} state=${revision.state} /></li>`)}</ol></nav>`;
