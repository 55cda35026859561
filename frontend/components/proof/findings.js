// Findings by what they weigh, and within that by kind: a kind with several is one row that opens.
import { html } from '../../html.js';
import { t } from '../../state/language.js';

const WEIGHTS = ['fault', 'look', 'declared'];

const kindsOf = (findings) => [...new Set(findings.map((finding) => finding.sort))].map((sort) => [sort, findings.filter((finding) => finding.sort === sort)]);

const Finding = ({ finding }) => html`<li class=${`finding ${finding.fault ? 'finding--fault' : ''}`}>
  ${finding.sentence}${finding.example && html`<small class="quiet finding__example">${finding.example}</small>`}</li>`;

const List = ({ findings }) => html`<ul class="findings">${findings.map((finding, at) => html`<${Finding} key=${at} finding=${finding} />`)}</ul>`;

const Sort = ({ sort, findings, open }) =>
  findings.length === 1
    ? html`<${List} findings=${findings} />`
    : html`<details class="folded finding-kind" open=${open}><summary>${t(`proof.sort.${sort}`)} <small>${findings.length}</small></summary><${List} findings=${findings} /></details>`;

const Weight = ({ weight, findings }) => html`<section class=${`weight weight--${weight}`} aria-labelledby=${`weight-${weight}`}>
  <h3 id=${`weight-${weight}`}>${t(`proof.weight.${weight}`)} <small>${findings.length}</small></h3>
  ${kindsOf(findings).map(([sort, those]) => html`<${Sort} key=${sort} sort=${sort} findings=${those} open=${weight === 'fault'} />`)}</section>`;

export const Findings = ({ findings }) =>
  WEIGHTS.map((weight) => [weight, findings.filter((finding) => finding.weight === weight)])
    .filter(([, those]) => those.length)
    .map(([weight, those]) => html`<${Weight} key=${weight} weight=${weight} findings=${those} />`);
