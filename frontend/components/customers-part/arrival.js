// A part that came: when, by whom, each limit with what was found, the verdict, and what became of it, each with its day.
import { html } from '../../html.js';
import { LANGUAGES, t } from '../../state/language.js';
import { SHEETS, day, dayAndTime, exact } from '../../format.js';
import { choiceLabel } from '../../state/book.js';
import { PaperLink } from '../papers/paper-link.js';
import { PartPictures } from './photographs.js';

const metText = (met) => t(met === null ? 'receipt.blank' : met ? 'receipt.yes' : 'receipt.no');

const Found = ({ limits, findings }) => findings.length > 0 && html`<table class="ruled receipt__found"><thead><tr><th scope="col">${t('receipt.limit')}</th><th scope="col">${t('receipt.measured')}</th><th scope="col">${t('receipt.is-met')}</th></tr></thead><tbody>
  ${findings.map((one, at) => html`<tr key=${at}><th scope="row">${limits[at]?.says ?? at + 1}</th><td>${one.measured === null ? '–' : `${exact(one.measured)} mm`}</td><td><b>${metText(one.met)}</b></td></tr>`)}</tbody></table>`;

const Verdict = ({ verdict, limits }) => html`<div class=${`receipt__verdict receipt__verdict--${verdict.passed ? 'passed' : 'failed'}`}>
  <p><b>${t(verdict.passed ? 'receipt.passed' : 'receipt.failed')}</b> ${t('receipt.signed', { by: verdict.signed_name, day: day(verdict.day) })}</p>${verdict.why && html`<p>${verdict.why}</p>`}
  <${Found} limits=${limits} findings=${verdict.findings} /></div>`;

const choiceText = (one) =>
  one.choice === 'second' ? t('receipt.chose-second', { day: day(one.day) })
  : one.choice === 'instead' ? t('receipt.chose-instead', { choice: choiceLabel(one.option, one.instead), letter: one.letter })
  : t('receipt.chose-cancel');

const Since = ({ arrival }) => html`<ol class="history">
  ${arrival.choices.map((one, at) => html`<li key=${`c${at}`}><time>${dayAndTime(one.at)}</time> ${choiceText(one)}${one.note && `: ${one.note}`} <span class="quiet">${one.by_name}</span></li>`)}
  ${arrival.acts.map((one, at) => html`<li key=${`a${at}`}><time>${day(one.day)}</time> ${t(`receipt.did.${one.act}`)}${one.note && `: ${one.note}`} <span class="quiet">${one.by_name}</span></li>`)}</ol>`;

const Papers = ({ at }) => html`<ul class="papers">${LANGUAGES.flatMap((language) => Object.entries(SHEETS).map(([size, name]) => html`<${PaperLink} key=${language + size} href=${`${at}&language=${language}&size=${size}`} name=${t('receipt.paper')}>${t(`language.${language}`)}, ${name}<//>`))}</ul>`;

export const Arrival = ({ arrival, limits, turn }) => html`<section class="receipt__arrival" aria-label=${t('receipt.turn', { turn })}>
  <p><b>${t('receipt.came', { day: day(arrival.day), by: arrival.by_name })}</b>${arrival.note && html`<br />${arrival.note}`}</p>
  ${arrival.by_hand && html`<p class="quiet">${t('receipt.by-hand')}</p>`}
  <${PartPictures} pictures=${arrival.photographs} />
  ${arrival.verdicts.slice(-1).map((verdict) => html`<${Verdict} key=${verdict.day} verdict=${verdict} limits=${limits} />`)}
  ${arrival.verdicts.length > 1 && html`<details><summary>${t('receipt.before')}</summary>${arrival.verdicts.slice(0, -1).map((verdict, at) => html`<${Verdict} key=${at} verdict=${verdict} limits=${limits} />`)}</details>`}
  ${arrival.choices.length + arrival.acts.length > 0 && html`<${Since} arrival=${arrival} />`}
  ${arrival.receipt && html`<details class="receipt__papers"><summary>${t('receipt.papers')}</summary><${Papers} at=${arrival.receipt} /></details>`}</section>`;
