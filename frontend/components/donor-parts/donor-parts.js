// What of the donor car is sent and what is kept, and where each customer's part is cut out: before anybody cuts.
import { useRef } from 'preact/hooks';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { useDonorParts } from '../../state/donor-parts.js';
import { Sheet } from '../shell-drawing/shell-drawing.js';

const REMARKS = ['spare', 'limit', 'step'];

const Remarks = ({ remarks }) => html`<dl class="remarks">${REMARKS.map((about) => {
  const said = remarks.filter((one) => one.about === about);
  return said.length > 0 && html`<div key=${about}><dt>${t(`parts.${about}`)}</dt>${said.map(({ text }) => html`<dd key=${text}>${text}</dd>`)}</div>`;
})}</dl>`;

const Sketch = ({ sketch, name, cut }) => html`<figure class="sketch"><${Sheet} drawing=${sketch} name=${name} />
  <figcaption class="quiet">${t(cut ? 'parts.key' : 'parts.key-whole')}</figcaption></figure>`;

const Comes = ({ comes, name }) => html`<details class="more"><summary>${t('parts.cut')}</summary>
  <p class="sent-part__measure">${t('parts.measure')}</p>
  ${comes.sketch && html`<${Sketch} sketch=${comes.sketch} name=${name} cut=${comes.margins.length > 0} />`}
  ${comes.margins.length > 0 ? html`<ul class="sent-part__margins">${comes.margins.map((line) => html`<li key=${line}>${line}</li>`)}</ul>` : html`<p><b>${t('parts.whole')}</b></p>`}
  <${Remarks} remarks=${comes.remarks} /></details>`;

const Kept = ({ keep }) => html`<li><b>${keep.label}</b> <span class="quiet">${keep.why}</span></li>`;

const Company = ({ company }) => company.length > 0 && html`<p class="sent-part__with">${t('parts.with')}:</p><ul class="kept">${company.map((keep) => html`<${Kept} key=${keep.id} keep=${keep} />`)}</ul>`;

const Sent = ({ one, name }) => html`<li class="sent-part"><h3><span class="reason__id">${one.rule}</span> ${one.part}</h3>
  <p><b>${t('parts.before', { stage: one.before })}</b></p><p>${one.reason}</p>
  <${Company} company=${one.company} />
  ${one.comes && html`<${Comes} comes=${one.comes} name=${`${name}-${one.rule}`} />`}</li>`;

const Besides = ({ keep }) => html`<li class="sent-part"><h3>${keep.label}</h3><p><b>${t('parts.besides', { stage: keep.before })}</b></p><p>${keep.why}</p></li>`;

const Sending = ({ found, name }) => (found.sent.length + found.besides.length > 0
  ? html`<h3 class="donor-parts__head">${t('parts.send')}</h3><ul class="sent-parts">${found.sent.map((one) => html`<${Sent} key=${one.rule} one=${one} name=${name} />`)}
    ${found.besides.map((keep) => html`<${Besides} key=${keep.id} keep=${keep} />`)}</ul>`
  : html`<p>${t('parts.none')}</p>`);

const Found = ({ found, name }) => {
  if (!found.buildable) return html`<p class="donor-parts__cant">${t('parts.cant')}</p>`;
  return html`<p class="quiet">${t('parts.lead')}</p><${Sending} found=${found} name=${name} />
    ${found.refit.length > 0 && html`<h3 class="donor-parts__head">${t('parts.refit')}</h3><ul class="kept">${found.refit.map((keep) => html`<${Kept} key=${keep.id} keep=${keep} />`)}</ul>`}`;
};

const count = (found) => (found?.buildable ? t('parts.count', { sent: found.sent.length + found.besides.length, kept: found.refit.length }) : '');

/** `question`: JSON text of what POST /api/answers takes; its head says how much there is, closed or open. */
export const DonorParts = ({ question, units = 'metric', name = 'parts' }) => {
  const found = useDonorParts(question, units);
  return html`<details class="card donor-parts"><summary>${t('parts.title')} <span class="pictures__count">${count(found)}</span></summary>
    ${found && html`<${Found} found=${found} name=${name} />`}</details>`;
};

/** Of the line in sight, once its answer is there, so that no answer waits for it. */
export const JobDonorParts = ({ job }) => {
  const answered = useRef(null);
  if (job.fresh.value) answered.current = job.question.value;
  return html`<${DonorParts} question=${answered.current} units=${job.document.value.customer.units} />`;
};
