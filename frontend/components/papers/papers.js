// The papers of a revision, each a link that opens the PDF as it is stored. The customer's own stands first and is named so;
// the others are for who needs them.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { pricesShown } from '../../state/session.js';
import { SHEETS } from '../../format.js';
import { PaperLink } from './paper-link.js';

const Paper = ({ paper, letter, draft }) => html`<${PaperLink} href=${paper.url} own=${paper.own} name=${`${t('papers.quotation')} ${letter}`}>
  ${t(`language.${paper.language}`)}, ${SHEETS[paper.size]}${draft ? ` · ${t('papers.draft')}` : ''}${paper.own && html`<br /><strong>${t('papers.own')}</strong>`}<//>`;

const ownFirst = (papers) => [...papers].sort((one, other) => Number(other.own) - Number(one.own));

const Links = ({ papers, letter, draft }) => html`<ul class="papers">
  ${ownFirst(papers).map((paper) => html`<${Paper} key=${paper.url} paper=${paper} letter=${letter} draft=${draft} />`)}</ul>`;

/** Another paper of the same revision, in the language and size of that one. */
const Beside = ({ own, file, name, children }) => html`<${PaperLink} href=${own.url.replace('/paper?', `/${file}?`)} name=${name}>${children}<//>`;

const ToSign = ({ own, which, letter, draft }) => html`<${Beside} own=${own} file=${which} name=${`${t(`papers.${which}`)} ${letter}`}>${t(draft ? 'papers.draft' : 'papers.to-sign')}<//>`;

/** In the customer's own language and size. The difference sheet names no price: it opens while prices are hidden. */
const Signed = ({ papers, ...rest }) => {
  const [own] = ownFirst(papers);
  return own && html`<ul class="papers">${pricesShown.value && html`<${ToSign} own=${own} which="acceptance-form" ...${rest} />`}
    <${ToSign} own=${own} which="difference-sheet" ...${rest} /></ul>`;
};

const asksForParts = (revision) => revision.lines.some(({ answer }) => answer?.depends.parts.length > 0);

/** Of the customer's parts, where it asks for any: where to cut, before anybody does, and the tags to send them with. */
const PartPapers = ({ revision, draft }) => {
  const [own] = ownFirst(revision.papers);
  return own && asksForParts(revision) && html`<ul class="papers">
    <${Beside} own=${own} file="where-to-cut" name=${`${t('papers.cut')} ${revision.letter}`}>${t(draft ? 'papers.draft' : 'papers.before-cutting')}<//>
    ${!draft && html`<${Beside} own=${own} file="part-tags" name=${t('papers.tags')}>${t('papers.tags-note')}<//>`}</ul>`;
};

/** The quotation's paper shows prices: while they are hidden, so is it. */
export const Papers = ({ revision, draft = false }) => html`
  ${pricesShown.value ? html`<${Links} papers=${revision.papers} letter=${revision.letter} draft=${draft} />` : html`<p class="quiet">${t('papers.hidden')}</p>`}
  <${Signed} papers=${revision.papers} letter=${revision.letter} draft=${draft} />
  <${PartPapers} revision=${revision} draft=${draft} />`;
