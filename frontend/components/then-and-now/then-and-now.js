// A revision as it was against today: what moved, rule by rule and price line by price line, and what the desk does about it.
// Shown only where something moved; nothing is altered by it.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { may } from '../../state/session.js';
import { put } from '../../api.js';
import { nameOf } from '../../state/book.js';
import { useReading } from '../../state/reading.js';
import { problemOf } from '../../state/sending.js';
import { day, money } from '../../format.js';
import { Notice } from '../notice/notice.js';

const amount = (minor, currency) => (minor === null || minor === undefined ? t('price.not-priced') : money(minor, currency));
const days = (ready) => (ready ? t('ready.range', { from: ready.from_days, to: ready.to_days }) : '–');
const verdict = (one) => (one ? t(`verdict.${one}.short`) : t('moved.unknown'));
const depends = (on) => t(on ? 'moved.depends' : 'moved.not');

const answer = (stood) => {
  if (!stood) return t('moved.unknown');
  const label = say(stood.choice_label) || stood.choice;
  if (stood.closed) return t('moved.closed', { choice: label });
  return stood.usual ? label : t('moved.not-usual', { choice: label });
};

/** A price line on one side: none there is no sum of nought. */
const priced = (side, currency) => (side ? amount(side.net, currency) : '–');

/** [[key, what, as it was, as it is, moved, figures?]] of one line. */
const rowsOf = (line, currency) => [
  ['verdict', t('verdict.label'), verdict(line.verdict.before), verdict(line.verdict.after), line.verdict.before !== line.verdict.after],
  ...line.come.map((cause) => [`come${cause}`, cause.join(' + '), '–', t('moved.comes'), true]),
  ...line.gone.map((cause) => [`gone${cause}`, cause.join(' + '), t('moved.was-against'), '–', true]),
  ...line.answers.map((row) => [`answer${row.option}`, say(row.label), answer(row.before), answer(row.after), true]),
  ...line.rules.map((row) => [`rule${row.sort}${row.id}`, `${nameOf(row.id)} – ${say(row.reason)}`, depends(row.before), depends(row.after), row.moved]),
  ...(line.prices ?? []).map((row) => [`price${row.line}`, say(row.label), priced(row.before, currency), priced(row.after, currency), row.moved, true]),
  ...(line.net ? [['net', t('moved.net'), amount(line.net.before, currency), amount(line.net.after, currency), line.net.before !== line.net.after, true]] : []),
  ['ready', t('ready.title'), days(line.ready.before), days(line.ready.after), days(line.ready.before) !== days(line.ready.after)],
];

const casesText = (sums, name) => (sums ? sums.cases.map((one) => amount(one[name], sums.currency)).join(' / ') : '–');

const sumRows = ({ sums, extras }, currency) => {
  if (!sums) return [];
  const rows = [['with_tax', t('moved.total')], ['deposit', t('totals.deposit')]].map(([name, label]) => [name, label, casesText(sums.before, name), casesText(sums.after, name)]);
  return [
    ...(extras ?? []).map((row) => [`extra${row.line}`, say(row.label), priced(row.before, currency), priced(row.after, currency), row.moved, true]),
    ...rows.map(([name, label, was, is]) => [name, label, was, is, was !== is, true]),
  ];
};

const Table = ({ rows, caption }) => html`<div class="scrolls" tabindex="0" role="group" aria-label=${caption}><table class="ruled then-and-now">
  <thead><tr><th scope="col">${caption}</th><th scope="col">${t('moved.was')}</th><th scope="col">${t('moved.is')}</th></tr></thead>
  <tbody>${rows.map(([key, what, was, is, moved, figures]) => html`<tr key=${key} class=${moved ? 'is-moved' : ''}><th scope="row">${what}</th>
    <td class=${figures ? 'amount' : ''}>${was}</td><td class=${figures ? 'amount' : ''}>${is}${moved && html`<span class="unseen"> ${t('moved.moved')}</span>`}</td></tr>`)}</tbody></table></div>`;

const onlyMoved = (rows) => rows.filter((row) => row[4]);

const currencyOf = ({ sums }) => sums?.before?.currency ?? sums?.after?.currency ?? 'GBP';

const answersText = (found) => {
  const names = found.lines.flatMap((line) => line.answers.map((row) => say(row.label)));
  if (!names.length) return '';
  return t(names.length === 1 ? 'moved.answer' : 'moved.answers', { count: names.length, options: names.join(', ') });
};

const Tables = ({ found, of }) => html`
  ${found.lines.map((line) => {
    const rows = of(rowsOf(line, currencyOf(found)));
    return rows.length > 0 && html`<${Table} key=${line.line} rows=${rows} caption=${t('approval.line', { line: line.line })} />`;
  })}
  ${of(sumRows(found, currencyOf(found))).length > 0 && html`<${Table} rows=${of(sumRows(found, currencyOf(found)))} caption=${t('totals.label-all')} />`}`;

const sinceText = (found) => t(found.state === 'draft' ? 'moved.since-draft' : 'moved.since', { day: day(found.then.at), then: found.then.book, now: found.now.book });

const Seen = ({ path, found, onSeen }) => {
  const problem = useSignal(null);
  const press = async () => {
    try {
      const { body } = await put(path.replace(/then-and-now$/, 'seen'), { book: found.now.book, tool_state: found.now.tool_state });
      onSeen(body);
    } catch (error) {
      problem.value = problemOf(error);
    }
  };
  return html`<button class="button" onClick=${press}>${t('moved.seen')}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}`;
};

const Card = ({ path, found, onSeen }) => html`<section class="card moved" aria-labelledby="moved-title">
  <h2 id="moved-title">${t('moved.title')}</h2>
  <p class="quiet">${sinceText(found)}</p>
  ${answersText(found) && html`<p class="moved__answers" role="status">${answersText(found)}</p>`}
  ${found.tools.map((tool) => html`<p key=${tool.tool}>${t('moved.tool', { tool: say(tool.label), before: t(`tool.${tool.before}`), after: t(`tool.${tool.after}`) })}</p>`)}
  <ul class="findings">${found.advice.map((one) => html`<li class="finding" key=${one}>${t(`moved.advice.${one}`)}</li>`)}</ul>
  <${Tables} found=${found} of=${onlyMoved} />
  <details class="folded"><summary>${t('moved.everything')}</summary><${Tables} found=${found} of=${(rows) => rows} /></details>
  ${found.state === 'draft' && may('quote') && html`<${Seen} path=${path} found=${found} onSeen=${onSeen} />`}
</section>`;

/** `turn`: whatever makes it worth asking again. */
export const ThenAndNow = ({ number, letter, turn = '' }) => {
  const path = `/api/quotations/${number}/revisions/${letter}/then-and-now`;
  const { body: held } = useReading(path, turn);
  return held.value?.moved && html`<${Card} path=${path} found=${held.value} onSeen=${(body) => (held.value = body)} />`;
};

/** On the form: asked when it is opened, and again when book or tools have moved since. */
export const JobThenAndNow = ({ job }) => {
  const { quotation, revision } = job.server.value;
  return quotation && html`<${ThenAndNow} number=${quotation.number} letter=${revision.letter} turn=${`${revision.book} ${revision.tool_state}`} />`;
};
