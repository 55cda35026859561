// A colleague changed the same draft: both versions beside each other, only what differs, and one press for either.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { optionLabel, choiceLabel } from '../../state/book.js';
import { keepMine, takeTheirs } from '../../state/saving.js';
import { dayAndTime } from '../../format.js';

const flat = (value, path, into) => {
  if (value !== null && typeof value === 'object') Object.entries(value).forEach(([name, inner]) => flat(inner, path ? `${path}.${name}` : name, into));
  else into.set(path, value);
  return into;
};

const answersOf = (document) => document.lines.map(({ answers, quantity }) => ({ answers, quantity }));
const flatten = (document) => flat({ ...document, lines: answersOf(document) }, '', new Map());

const rowsOf = (mine, theirs) => {
  const [here, there] = [flatten(mine), flatten(theirs)];
  // Who has no number yet is given one as he is filed: nobody typed it.
  const given = (path) => path === 'customer.id' && (here.get(path) ?? null) === null;
  return [...new Set([...here.keys(), ...there.keys()])]
    .filter((path) => !path.endsWith('.origin') && !given(path) && (here.get(path) ?? '') !== (there.get(path) ?? ''))
    .map((path) => ({ path, here: here.get(path), there: there.get(path) }));
};

const CHOICE = /^(?:lines\.\d+\.answers\.([\w-]+)\.choice|donor\.(built|stands|ordered)\.values\.([\w-]+))$/;
const optionIn = (path) => CHOICE.exec(path)?.[1] ?? CHOICE.exec(path)?.[3];
const pictureIn = (path) => CHOICE.exec(path)?.[2];
const ofOption = (path) => [optionLabel(optionIn(path)), pictureIn(path) && t(`pictures.${pictureIn(path)}`)].filter(Boolean).join(', ');
const named = (path) => (optionIn(path) ? ofOption(path) : t(`field.${path.replace(/\.\d+(?=\.|$)/g, '')}`));
const texts = (path, value) => (path.endsWith('.said_by') ? t(`donor.said-by.${value}`) : String(value));
const worded = (path, value) => (value === undefined || value === null || value === '' ? '–' : optionIn(path) ? choiceLabel(optionIn(path), value) : texts(path, value));

/** Who and when: of the quotation's history; customer and donor car are the enquiry's, which says only when. */
const changedText = ({ quotation, enquiry }) => {
  const [last, at] = [quotation?.history?.at(-1), enquiry?.updated_at];
  if (at && !(last && Date.parse(last.at) >= Date.parse(at))) return t('conflict.at', { at: dayAndTime(at) });
  return last ? t('conflict.by', { by: last.by_name ?? last.by, at: dayAndTime(last.at) }) : '';
};

export const SideBySide = ({ job }) => {
  const { theirs, document } = job.saving.value;
  return html`<section class="notice side-by-side" id="both" tabindex="-1" role="alert">
    <p class="notice__title">${t('conflict.title')}</p>
    <p>${changedText(theirs)} ${t('conflict.kept')}</p>
    <table class="ruled"><thead><tr><th scope="col">${t('conflict.what')}</th><th scope="col">${t('conflict.mine')}</th><th scope="col">${t('conflict.theirs')}</th></tr></thead>
      <tbody>${rowsOf(job.document.value, document).map(({ path, here, there }) => html`<tr key=${path}>
        <th scope="row">${named(path)}</th><td>${worded(path, here)}</td><td>${worded(path, there)}</td></tr>`)}</tbody></table>
    <button class="button button--heavy" onClick=${() => keepMine(job)}>${t('conflict.keep-mine')}</button>
    <button class="button" onClick=${() => takeTheirs(job)}>${t('conflict.take-theirs')}</button>
  </section>`;
};
