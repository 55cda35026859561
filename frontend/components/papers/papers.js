// The papers of a revision, each a link that opens the PDF as it is stored. The customer's own stands first and is named so;
// the others are for who needs them.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { pricesShown } from '../../state/session.js';

const SIZE = { a4: 'A4', letter: 'Letter' };

const Paper = ({ paper, letter, draft }) => html`<li><a class=${`paper ${paper.own ? 'paper--own' : ''}`} target="_blank" rel="noopener" href=${paper.url}>
  <span class="paper__sheet" aria-hidden="true">PDF</span>
  <span><b>${t('papers.quotation')} ${letter}</b><br />${t(`language.${paper.language}`)}, ${SIZE[paper.size]}${draft ? ` · ${t('papers.draft')}` : ''}${paper.own && html`<br /><strong>${t('papers.own')}</strong>`}</span></a></li>`;

const ownFirst = (papers) => [...papers].sort((one, other) => Number(other.own) - Number(one.own));

const Links = ({ papers, letter, draft }) => html`<ul class="papers">
  ${ownFirst(papers).map((paper) => html`<${Paper} key=${paper.url} paper=${paper} letter=${letter} draft=${draft} />`)}</ul>`;

/** In the customer's own language and size. It names no price, so it may be opened while prices are hidden. */
const DifferenceSheet = ({ papers, letter, draft }) => {
  const [own] = ownFirst(papers);
  return own && html`<ul class="papers"><li><a class="paper" target="_blank" rel="noopener" href=${own.url.replace('/paper?', '/difference-sheet?')}>
    <span class="paper__sheet" aria-hidden="true">PDF</span>
    <span><b>${t('papers.difference')} ${letter}</b><br />${t(draft ? 'papers.draft' : 'papers.to-sign')}</span></a></li></ul>`;
};

/** To be sent before anybody cuts; a revision that asks for no part of the car has none. */
const CutSheet = ({ revision, draft }) => {
  const [own] = ownFirst(revision.papers);
  const asks = revision.lines.some(({ answer }) => answer?.depends.parts.length > 0);
  return own && asks && html`<ul class="papers"><li><a class="paper" target="_blank" rel="noopener" href=${own.url.replace('/paper?', '/where-to-cut?')}>
    <span class="paper__sheet" aria-hidden="true">PDF</span>
    <span><b>${t('papers.cut')} ${revision.letter}</b><br />${t(draft ? 'papers.draft' : 'papers.before-cutting')}</span></a></li></ul>`;
};

/** The quotation's paper shows prices: while they are hidden, so is it. */
export const Papers = ({ revision, draft = false }) => html`
  ${pricesShown.value ? html`<${Links} papers=${revision.papers} letter=${revision.letter} draft=${draft} />` : html`<p class="quiet">${t('papers.hidden')}</p>`}
  <${DifferenceSheet} papers=${revision.papers} letter=${revision.letter} draft=${draft} />
  <${CutSheet} revision=${revision} draft=${draft} />`;
