// The head of every page of a draft: which it is, how it stands, and the ways to its parts.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { place } from '../../state/route.js';
import { Link } from '../link/link.js';
import { Notice } from '../notice/notice.js';

const WAYS = [['book-draft', ''], ['book-draft-prices', '/prices'], ['book-draft-words', '/words'], ['book-draft-text', '/text'], ['book-rehearsal', '/rehearsal']];

export const mistakesText = (count) => t({ 0: 'drafts.no-mistakes', 1: 'drafts.one-mistake' }[count] ?? 'drafts.mistakes', { count });

/** How a draft stands, in a few words. */
export const standingText = (draft) => {
  if (draft.standing === 'published') return t('drafts.published', { number: draft.book });
  return draft.standing === 'thrown-away' ? t('drafts.thrown-away') : mistakesText(draft.mistakes);
};

const Ways = ({ draft }) => html`<nav class="draft-ways" aria-label=${t('drafting.ways')}>
  ${WAYS.map(([page, tail]) => html`<${Link} key=${page} to=${`/book-drafts/${draft.id}${tail}`} aria-current=${place.value.page === page ? 'page' : undefined}>${t(`drafting.way.${page}`)}<//>`)}</nav>`;

export const DraftPage = ({ draft, children }) => html`<div class="work">
  ${draft.body ? html`<h1>${t('drafts.named', { number: draft.body.id })}</h1><p class="quiet">${t('drafts.from', { number: draft.body.base })} · <span class=${draft.body.mistakes ? 'draft-wrong' : ''}>${standingText(draft.body)}</span></p><${Ways} draft=${draft.body} />` : html`<h1>${t('drafts.title')}</h1>`}
  ${draft.problem && html`<${Notice} problem=${draft.problem} />`}
  ${draft.body && children}</div>`;
