// What the dealer's customer pays him, and the dealer's own paper. It follows the price switch: hidden, both name no price.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { may, person, pricesShown, sight } from '../../state/session.js';
import { get } from '../../api.js';
import { SHEETS, money } from '../../format.js';
import { problemOf } from '../../state/sending.js';
import { Link } from '../link/link.js';
import { Notice } from '../notice/notice.js';
import { PaperLink } from '../papers/paper-link.js';

const Paper = ({ paper, letter }) => html`<${PaperLink} href=${paper.url} own=${paper.own} name=${`${t('retail.paper')} ${letter}`}>
  ${t(`language.${paper.language}`)}, ${SHEETS[paper.size]}${paper.own && html`<br /><strong>${t('retail.own')}</strong>`}<//>`;

const ownFirst = (papers) => [...papers].sort((one, other) => Number(other.own) - Number(one.own));

const Missing = ({ missing }) => html`<p>${t('retail.missing', { what: missing.map((name) => t(`retail.missing.${name}`)).join(', ') })} <${Link} to="/house">${t('retail.to-house')}<//></p>`;

const Shells = ({ shells, currency }) => html`<details class="folded"><summary>${t('retail.lines')}</summary>
  ${shells.map((one, at) => html`<table key=${at} class="ruled ruled--amounts"><tbody>${one.lines.map((line) => html`<tr key=${line.line}><th scope="row">${say(line.label)}</th><td class="amount">${money(line.amount, currency)}</td></tr>`)}
    <tr><th scope="row">${t('retail.each', { count: one.quantity, each: money(one.one, currency) })}</th><td class="amount"><b>${money(one.all, currency)}</b></td></tr></tbody></table>`)}</details>`;

const Sum = ({ offer }) => html`<p class="retail__sum"><b>${money(offer.before_tax, offer.currency)}</b> <small>${t('retail.before-tax', { dealer: person.value.dealer_name })}</small></p>
  <${Shells} shells=${offer.shells} currency=${offer.currency} />`;

const Offer = ({ offer }) => {
  const lacking = offer.missing.filter((name) => pricesShown.value || name === 'address');
  if (lacking.length) return html`<${Missing} missing=${lacking} />`;
  return html`${offer.before_tax !== null ? html`<${Sum} offer=${offer} />` : html`<p class="quiet">${t('retail.without')}</p>`}
    <ul class="papers">${ownFirst(offer.papers).map((paper) => html`<${Paper} key=${paper.url} paper=${paper} letter=${offer.letter} />`)}</ul>`;
};

/** `version`: asked for anew when the revision has another. */
const Retail = ({ number, letter, version }) => {
  const [held, problem] = [useSignal(null), useSignal(null)];
  useEffect(() => {
    let here = true;
    held.value = null;
    get(`/api/quotations/${number}/revisions/${letter}/retail`).then(({ body }) => here && ((held.value = body), (problem.value = null)), (error) => here && (problem.value = problemOf(error)));
    return () => (here = false);
  }, [number, letter, version, sight.value]);
  return html`<p class="quiet">${t('retail.lead')}</p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}${held.value && html`<${Offer} offer=${held.value} />`}`;
};

/** It is asked for only once it is unfolded: on a draft it is worked out anew with every change. */
export const RetailFolded = (of) => {
  const open = useSignal(false);
  return may('offer') && html`<details class="card" onToggle=${(event) => (open.value = event.target.open)}><summary>${t('retail.title')}</summary>
    ${open.value && html`<${Retail} ...${of} />`}</details>`;
};
