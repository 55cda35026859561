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

const ToSign = ({ own, which, letter, draft }) => html`<li><a class="paper" target="_blank" rel="noopener" href=${own.url.replace('/paper?', `/${which}?`)}>
  <span class="paper__sheet" aria-hidden="true">PDF</span>
  <span><b>${t(`papers.${which}`)} ${letter}</b><br />${t(draft ? 'papers.draft' : 'papers.to-sign')}</span></a></li>`;

/** In the customer's own language and size. The difference sheet names no price: it opens while prices are hidden. */
const Signed = ({ papers, ...rest }) => {
  const [own] = ownFirst(papers);
  return own && html`<ul class="papers">${pricesShown.value && html`<${ToSign} own=${own} which="acceptance-form" ...${rest} />`}
    <${ToSign} own=${own} which="difference-sheet" ...${rest} /></ul>`;
};

const asksForParts = (revision) => revision.lines.some(({ answer }) => answer?.depends.parts.length > 0);

const PartPaper = ({ own, file, name, note }) => html`<li><a class="paper" target="_blank" rel="noopener" href=${own.url.replace('/paper?', `/${file}?`)}>
  <span class="paper__sheet" aria-hidden="true">PDF</span><span><b>${name}</b><br />${note}</span></a></li>`;

/** Of the customer's parts, where it asks for any: where to cut, before anybody does, and the tags to send them with. */
const PartPapers = ({ revision, draft }) => {
  const [own] = ownFirst(revision.papers);
  return own && asksForParts(revision) && html`<ul class="papers">
    <${PartPaper} own=${own} file="where-to-cut" name=${`${t('papers.cut')} ${revision.letter}`} note=${t(draft ? 'papers.draft' : 'papers.before-cutting')} />
    ${!draft && html`<${PartPaper} own=${own} file="part-tags" name=${t('papers.tags')} note=${t('papers.tags-note')} />`}</ul>`;
};

/** The quotation's paper shows prices: while they are hidden, so is it. */
export const Papers = ({ revision, draft = false }) => html`
  ${pricesShown.value ? html`<${Links} papers=${revision.papers} letter=${revision.letter} draft=${draft} />` : html`<p class="quiet">${t('papers.hidden')}</p>`}
  <${Signed} papers=${revision.papers} letter=${revision.letter} draft=${draft} />
  <${PartPapers} revision=${revision} draft=${draft} />`;
