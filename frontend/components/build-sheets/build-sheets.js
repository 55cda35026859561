// The build sheets of an order's shells: each shell with its state and a link to its sheet, A4 and A3, the workshop's language first.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { choiceLabel } from '../../state/book.js';
import { serialText } from '../../state/shells.js';
import { useReading } from '../../state/reading.js';
import { useReady } from '../../state/coming.js';
import { Notice } from '../notice/notice.js';
import { PaperLink } from '../papers/paper-link.js';

const SIZES = ['a4', 'a3'];

const shellName = ({ settled }) => ['series', 'body', 'steering', 'market'].map((option) => settled[option] && choiceLabel(option, settled[option])).filter(Boolean).join(' · ');

const Paper = ({ order, sheet, language, size }) => html`<${PaperLink} href=${`/api/orders/${order}/build-sheets/${sheet.line}/${sheet.piece}?language=${language}&size=${size}`} name=${t('build-sheets.paper', { size: size.toUpperCase() })}>${t(`language.${language}`)}<//>`;

const Shell = ({ found, sheet }) => html`<li class="build-sheet">
  <h3>${t('build-sheets.shell', { line: sheet.line, piece: sheet.piece })} <span class=${`standing standing--${sheet.state}`}>${t(`shell.${sheet.state}`)}</span></h3>
  <p>${shellName(sheet)} · ${serialText(sheet)}${sheet.sheet ? ` · ${t('sheets.number', { revision: sheet.sheet })}` : ''}</p>
  ${sheet.serial === null && html`<p class="build-sheet__planned">${t('build-sheets.planned')}</p>`}
  <ul class="papers">${found.languages.flatMap((language) => SIZES.map((size) => html`<${Paper} key=${language + size} order=${found.order} sheet=${sheet} language=${language} size=${size} />`))}</ul></li>`;

/** `quotation`: whose order it is; nothing while there is none, or for whom the sheets are not. */
export const BuildSheets = ({ quotation, onReady }) => {
  const read = useReading(may('see-build-sheets') && `/api/quotations/${quotation}/build-sheets`);
  const { body, problem } = read;
  useReady(read, onReady);
  const found = body.value;
  if (!found && !problem.value) return null;
  return html`<section class="card" aria-labelledby="build-sheets-title"><h2 id="build-sheets-title">${t('build-sheets.title')}</h2>
    ${problem.value ? html`<${Notice} problem=${problem.value} />` : html`<p class="quiet">${t('build-sheets.lead', { order: found.order, revision: found.revision })}</p>
      <ul class="build-sheets">${found.sheets.map((sheet) => html`<${Shell} key=${`${sheet.line}.${sheet.piece}`} found=${found} sheet=${sheet} />`)}</ul>`}</section>`;
};
