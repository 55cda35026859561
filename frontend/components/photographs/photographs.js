// Photographs against the donor car: chosen or taken with a telephone's camera, sent one by one, shown with who added them.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { book, titleOf } from '../../state/book.js';
import { dayAndTime } from '../../format.js';
import { letGo, photographsOf, readPhotographs, sendAgain, sendFiles, takeOut } from '../../state/photographs.js';
import { problemOf } from '../../state/sending.js';
import { SelectField, TextField } from '../field/field.js';
import { Live } from '../live/live.js';
import { Notice } from '../notice/notice.js';

const SHOWS = ['plate', 'factory-record', 'car', 'part'];
const TAKEN = 'image/jpeg,image/png,image/webp';

/** What a photograph must show to be pointed to by whoever says so. */
const PROVES = { 'plate-photograph': ['plate'], 'factory-record': ['factory-record'], owner: SHOWS };

const partRules = () => (book.value?.rules ?? []).filter(({ kinds }) => kinds?.includes('part'));

const shownText = ({ shows, part }) => (part ? t('photographs.shows-part', { part, name: titleOf(part) }) : t(`photographs.shows.${shows}`));

const useKept = (enquiry) => {
  const of = enquiry ? photographsOf(enquiry) : null;
  useEffect(() => {
    if (of) readPhotographs(of);
  }, [enquiry]);
  return of;
};

/** Which photograph proves it, for whoever says so. Nothing to choose, nothing is shown. */
export const Pointing = ({ enquiry, picture, onPoint }) => {
  const kept = useKept(enquiry)?.kept.value ?? [];
  const fitting = kept.filter(({ shows }) => PROVES[picture.said_by]?.includes(shows));
  if (!fitting.length) return null;
  return html`<${SelectField} label=${t('photographs.points')} value=${String(picture.photograph ?? '')} onWrite=${(id) => onPoint(id ? Number(id) : null)}
    options=${[['', t('photographs.points-none')], ...fitting.map((one) => [String(one.id), t('photographs.number', { number: one.id, shows: shownText(one) })])]} />`;
};

const TakeOut = ({ of, one, onProblem }) => {
  const asked = useSignal(false);
  const press = () => takeOut(of, one).catch((error) => onProblem(problemOf(error)));
  return asked.value
    ? html`<button class="button" onClick=${press}>${t('photographs.take-out-now', { number: one.id })}</button> <button class="plain" onClick=${() => (asked.value = false)}>${t('photographs.leave')}</button>`
    : html`<button class="plain" aria-label=${t('photographs.take-out-of', { number: one.id })} onClick=${() => (asked.value = true)}>${t('photographs.take-out')}</button>`;
};

const Kept = ({ of, one, pointed, onProblem }) => html`<li class="photograph"><a href=${one.url} target="_blank" rel="noopener"><img src=${one.small_url} alt=${t('photographs.number', { number: one.id, shows: shownText(one) })} width="160" height="120" loading="lazy" /></a>
  <div><b>${t('photographs.number', { number: one.id, shows: shownText(one) })}</b>${one.note && html`<br />${one.note}`}<br /><small class="quiet">${one.by_name}, ${dayAndTime(one.at)}</small>
  ${pointed.includes(one.id) ? html`<br /><small>${t('photographs.is-pointed')}</small>` : html`<br /><${TakeOut} of=${of} one=${one} onProblem=${onProblem} />`}</div></li>`;

const whatOf = ({ problem }) => problem?.errors?.file?.[0] ?? Object.values(problem?.errors ?? {}).flat()[0] ?? problem?.detail ?? t('photographs.refused');

/** A file on its way; `said`: what it shows. */
export const Going = ({ of, one, said }) => html`<li class=${`photograph photograph--${one.state}`}><div><b>${one.file.name}</b><br />${said}
  ${one.state === 'going' && html`<br /><progress max="1" value=${one.share} aria-label=${t('photographs.going-of', { name: one.file.name })}></progress> ${Math.round(one.share * 100)} %`}
  ${one.state === 'waits' && html`<br />${t('photographs.waits')}`}
  ${one.state === 'away' && html`<br /><span class="field__error">${t('photographs.away')}</span><br /><button class="button" onClick=${() => sendAgain(of, one)}>${t('photographs.again')}</button>`}
  ${one.state === 'refused' && html`<br /><span class="field__error">${whatOf(one)}</span>`}
  ${['away', 'refused'].includes(one.state) && html` <button class="plain" onClick=${() => letGo(of, one)}>${t('photographs.let-go')}</button>`}</div></li>`;

/** `scans`: PDF is taken, too. */
export const Choose = ({ label, camera, scans = true, onFiles }) => html`<label class="button photographs__choose">${label}<input type="file" class="unseen" accept=${camera || !scans ? TAKEN : `${TAKEN},application/pdf`} multiple=${!camera} capture=${camera ? 'environment' : undefined}
  onChange=${(event) => {
    onFiles([...event.target.files]);
    event.target.value = '';
  }} /></label>`;

const Add = ({ of }) => {
  const [shows, part, note] = [useSignal('plate'), useSignal(''), useSignal('')];
  const rules = partRules();
  const about = () => ({ shows: shows.value, part: shows.value === 'part' ? part.value || rules[0]?.id || '' : '', note: note.value.trim() });
  const add = (chosen) => {
    sendFiles(of, chosen, about());
    note.value = '';
  };
  return html`<div class="fields"><${SelectField} label=${t('photographs.what')} value=${shows.value} options=${SHOWS.filter((one) => one !== 'part' || rules.length).map((one) => [one, t(`photographs.shows.${one}`)])} onWrite=${(value) => (shows.value = value)} />
    ${shows.value === 'part' && html`<${SelectField} label=${t('photographs.part')} value=${part.value || rules[0]?.id} options=${rules.map(({ id }) => [id, `${id} ${titleOf(id)}`])} onWrite=${(value) => (part.value = value)} />`}
    <${TextField} label=${t('photographs.note')} maxlength="200" autocomplete="off" value=${note.value} onWrite=${(text) => (note.value = text)} /></div>
    <p class="photographs__buttons"><${Choose} label=${t('photographs.choose')} onFiles=${add} /> <${Choose} label=${t('photographs.camera')} camera=${true} onFiles=${add} /></p>
    <p class="quiet">${t('photographs.lead')}</p>`;
};

const File = ({ of, pointed }) => {
  const problem = useSignal(null);
  const [kept, going] = [of.kept.value ?? [], of.going.value];
  return html`<ul class="photographs__list">${kept.map((one) => html`<${Kept} key=${one.id} of=${of} one=${one} pointed=${pointed} onProblem=${(found) => (problem.value = found)} />`)}
    ${going.map((one) => html`<${Going} key=${one.key} of=${of} one=${one} said=${shownText(one)} />`)}</ul>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    <${Live} text=${going.length ? t('photographs.still', { count: going.length }) : ''} /><${Add} of=${of} />`;
};

const countOf = (of) => {
  const kept = of?.kept.value?.length;
  return kept === undefined ? '' : String(kept + of.going.value.length);
};

/** `pointed`: ids that whoever says so of the car points to. */
export const Photographs = ({ enquiry, pointed = [] }) => {
  const of = useKept(enquiry);
  return html`<details class="more photographs"><summary>${t('photographs.title')} <span class="pictures__count">${countOf(of)}</span></summary>
    ${of ? html`<${File} of=${of} pointed=${pointed} />` : html`<p class="quiet">${t('photographs.not-yet')}</p>`}</details>`;
};
