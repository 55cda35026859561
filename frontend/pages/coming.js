// What the workshop may have to build: what is out and in date, or accepted. To read only, and nothing here knows money.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { book, choiceLabel, optionLabel, shellName, titleOf } from '../state/book.js';
import { usePages } from '../state/pages.js';
import { day, lastDay } from '../format.js';
import { gatesOf } from '../state/shown.js';
import { useReading } from '../state/reading.js';
import { TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { Standing } from '../components/standing/standing.js';
import { More } from '../components/more/more.js';
import { Notice } from '../components/notice/notice.js';
import { Stamp } from '../components/stamp/stamp.js';
import { Ready } from '../components/ready/ready.js';
import { Depends, anyDepends } from '../components/reasons/reasons.js';
import { EarlierYes, shortYesText } from '../components/earlier-yes/earlier-yes.js';
import { BuildSheets } from '../components/build-sheets/build-sheets.js';
import { Fact } from '../components/fact/fact.js';
import { Missing } from './not-found.js';

const needed = (work) => [...new Set([...work.lines.flatMap(({ depends }) => depends.parts), ...work.awaits])];

const Row = ({ work }) => html`<li class="slip"><${Link} to=${`/work-to-come/${work.number}`} class="slip__link slip__link--coming">
  <b class="slip__number">${work.number} ${work.letter}</b>
  <span class="slip__name">${work.lines.map((line) => `${line.quantity} × ${shellName(line.settled)}`).join('; ')}<small>${[work.customer, work.donor.number_text].filter(Boolean).join(' · ')}</small></span>
  <${Standing} state=${work.state} />
  <span class="slip__waits">${[work.earlier_yes && shortYesText(work.earlier_yes), needed(work).length && t('slip.parts', { ids: needed(work).map((id) => `${id} ${titleOf(id)}`).join(', ') })].filter(Boolean).join(' · ')}</span>
  <span class="slip__day">${work.wanted_by ? `${t('coming.wanted')} ${day(work.wanted_by)}` : t('coming.issued', { day: day(work.issued_at) })}</span><//></li>`;

export const Coming = () => {
  const q = useSignal('');
  const pages = usePages(`/api/work-to-come${q.value ? `?${new URLSearchParams({ q: q.value })}` : ''}`, 'work', (work) => work.number);
  return html`<div class="work"><h1>${t('coming.title')}</h1><p class="quiet">${t('coming.lead')}</p>
    <div class="work__find"><${TextField} label=${t('work.find')} hint=${t('coming.find-hint')} type="search" maxlength="200" value=${q.value}
      onWrite=${(text) => (q.value = text)} /></div>
    ${pages.problem && html`<${Notice} problem=${pages.problem} />`}
    ${pages.rows && (pages.rows.length ? html`<ul class="slips" id="work-list">${pages.rows.map((work) => html`<${Row} key=${work.number} work=${work} />`)}</ul>` : html`<p class="quiet">${t('work.nothing')}</p>`)}
    <${More} pages=${pages} list="work-list" of=${t('coming.title')} /></div>`;
};

const inOrder = (line) => (book.value?.options ?? []).filter((option) => line.settled[option.id]).map((option) => [option.id, line.settled[option.id]]);

const Line = ({ line, at }) => html`<section class="card issued-line" aria-label=${t('issued.line', { line: at + 1, count: line.quantity })}>
  <h2>${t('issued.line', { line: at + 1, count: line.quantity })}: ${shellName(line.settled)}</h2>
  <div class="issued-line__answer"><${Stamp} verdict=${line.verdicts[0]} gates=${gatesOf(line)} />
    <div>${line.ready && html`<div class="issued-line__ready"><b>${t('ready.title')}</b> <${Ready} answer=${{ ...line, complete: true }} /></div>`}
      ${anyDepends(line.depends) && html`<${Depends} depends=${line.depends} />`}</div></div>
  <table class="ruled"><tbody>${inOrder(line).map(([option, choice]) => html`<tr key=${option} class=${`row--${line.standing[option]}`}>
    <th scope="row">${optionLabel(option)}</th><td>${choiceLabel(option, choice)}</td><td class="quiet ruled__state">${t(`choice.${line.standing[option] ?? 'forced'}`)}</td></tr>`)}</tbody></table></section>`;

const Sheet = ({ work }) => html`<div class="issued">
  <h1 class="unseen">${t('coming.sheet', { number: work.number, letter: work.letter })}</h1>
  <dl class="cells cells--issued">
    <${Fact} label=${t('cell.number')} large=${true}>${work.number}<//><${Fact} label=${t('cell.revision')} large=${true}>${work.letter}<//>
    <${Fact} label=${t('cell.series')} large=${true}>${work.lines[0]?.settled.series ? choiceLabel('series', work.lines[0].settled.series) : '–'}<//>
    <${Fact} label=${t('cell.state')}><${Standing} state=${work.state} /><//>
    <${Fact} label=${t('donor.title')}>${work.donor.number_text || t('slip.no-donor')}<//>
    <${Fact} label=${work.wanted_by ? t('coming.wanted') : t('cell.valid')}>${work.wanted_by ? day(work.wanted_by) : lastDay(work.valid_until)}<//>
  </dl><${EarlierYes} revision=${work} />${work.state === 'accepted' && html`<${BuildSheets} quotation=${work.number} />`}${work.lines.map((line, at) => html`<${Line} key=${at} line=${line} at=${at} />`)}</div>`;

export const ComingSheet = ({ number }) => {
  const { body, problem } = useReading(`/api/work-to-come/${number}`);
  return problem.value || !body.value ? html`<${Missing} problem=${problem.value} />` : html`<${Sheet} work=${body.value} />`;
};
