// The donor car: its identity number as typed, read by the server, mended only when the reader confirms it.
import { useEffect, useRef } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say, language } from '../../state/language.js';
import { book, choiceLabel } from '../../state/book.js';
import { standing } from '../../state/session.js';
import { away, post, returned } from '../../api.js';
import { establish, write } from '../../state/edit.js';
import { narrow } from '../../state/narrow.js';
import { TextField, SelectField } from '../field/field.js';
import { DonorPictures, sources } from '../donor-pictures/donor-pictures.js';
import { Photographs, Pointing } from '../photographs/photographs.js';

const PAUSE = 250;

/** What the server makes of it; null where it could not be asked. */
const readNumber = (text) => post('/api/donor-numbers', { text }).then(({ body }) => body, () => null);

/** Reads the number when the typing pauses. Only an identified number changes the document; the rest is said.
 *  A car that was identified by this very number stays so while nobody can be asked. */
const useReading = (job, reading) => {
  const text = job.document.value.donor.number_text;
  const [speech, here, back] = [language.value, standing.value, returned.value];
  useEffect(() => {
    if (!text.trim()) {
      reading.value = null;
      return undefined;
    }
    const timer = setTimeout(async () => {
      const body = await readNumber(text);
      if (job.document.value.donor.number_text !== text) return;
      if (!body && job.document.value.donor.number === text.trim()) return;
      reading.value = body;
      settle(job, body, text);
    }, PAUSE);
    return () => clearTimeout(timer);
  }, [text, speech, here, back]);
};

const settle = (job, reading, text) => {
  const { series, number, established } = job.document.value.donor;
  const identified = reading?.reading === 'identified';
  const same = identified ? established && series === reading.series && number === reading.number : !established && series === null;
  if (!same) establish(job, reading, text);
};

const Reading = ({ job, reading }) => {
  if (!reading) return html`<p class="reading__words">${t(away.value && job.document.value.donor.number_text ? 'donor.unread' : 'donor.hint')}</p>`;
  const mend = () => write(job, ['donor', 'number_text'], reading.offer);
  return html`
    ${reading.series && html`<p class="reading__series">${choiceLabel('series', reading.series)}</p>`}
    <p class="reading__words">${reading.message}</p>
    ${reading.offer && html`<button class="button" onClick=${mend}>${t('donor.use', { number: reading.offer })}</button>`}`;
};

const gearboxes = () => [['', t('donor.gearbox.unknown')], ...(book.value?.gearboxes ?? []).map((row) =>
  typeof row === 'string' ? [row, t(`donor.gearbox.${row}`)] : [row.id, say(row.label)])];

const INTENTS = ['as-original', 'another-series', 'modified'];
const intents = () => [['', t('donor.intent.open')], ...INTENTS.map((intent) => [intent, t(`donor.intent.${intent}`)])];

const More = ({ job, donor }) => html`
  <${SelectField} label=${t('donor.gearbox')} value=${donor.gearbox ?? ''} options=${gearboxes()}
    onWrite=${(value) => write(job, ['donor', 'gearbox'], value || null)} />
  <${SelectField} label=${t('donor.intent')} value=${donor.intent ?? ''} options=${intents()}
    onWrite=${(value) => write(job, ['donor', 'intent'], value || null)} />
  <${SelectField} label=${t('donor.said-by')} value=${donor.built.said_by ?? ''} options=${sources()}
    onWrite=${(value) => write(job, ['donor', 'built'], { ...donor.built, said_by: value || null, photograph: null })} />
  <${Pointing} enquiry=${job.server.value.enquiry?.id} picture=${donor.built} onPoint=${(photograph) => write(job, ['donor', 'built'], { ...donor.built, photograph })} />`;

/** A fresh card begins with the number: the cursor waits there. */
const useBeginning = (job, frame) =>
  useEffect(() => {
    const { donor, customer } = job.document.value;
    if (!job.server.value.enquiry && !donor.number_text && !customer.name) frame.current.querySelector('input').focus({ preventScroll: true });
  }, [job.id]);

export const Donor = ({ job }) => {
  const reading = useSignal(null);
  const frame = useRef(null);
  useReading(job, reading);
  useBeginning(job, frame);
  const { donor } = job.document.value;
  return html`<section class="card donor" aria-labelledby="donor-title" ref=${frame}>
    <h2 id="donor-title">${t('donor.title')}</h2>
    <div class="donor__row">
      <${TextField} label=${t('donor.number')} class="donor__number" autocomplete="off" spellcheck=${false} autocapitalize="characters"
        value=${donor.number_text} onWrite=${(text) => write(job, ['donor', 'number_text'], text)} />
      <div class=${`reading reading--${reading.value?.reading ?? 'none'}`} role="status"><${Reading} job=${job} reading=${reading.value} /></div>
      ${narrow.value ? html`<details class="more"><summary>${t('donor.more')}</summary><${More} job=${job} donor=${donor} /></details>` : html`<${More} job=${job} donor=${donor} />`}
    </div>
    <${DonorPictures} job=${job} />
    <${Photographs} enquiry=${job.server.value.enquiry?.id} pointed=${[donor.built.photograph, donor.stands.photograph]} />
  </section>`;
};
