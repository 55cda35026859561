// All amounts of a draft in one sheet: ticked ones raised by a percentage, the whole taken out as CSV and pasted back.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { pathOf, useChange, useDraft, useOfDraft } from '../state/book-drafts.js';
import { decimal } from '../state/amounts.js';
import { DraftPage } from '../components/book-draft/draft-head.js';
import { SelectField, TextArea, TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';

const STEPS = ['0.01', '0.10', '1', '5', '10', '50', '100'];

/** The groups that are ticked at once: an option with all its choices, else each by itself. */
const groupsOf = (prices) => [...new Set(prices.map((one) => one.of))].map((of) => [of, prices.filter((one) => one.of === of)]);

const Raise = ({ lists, ticked, change, busy }) => {
  const [percent, step, which] = [useSignal(''), useSignal('1'), useSignal('')];
  const send = async (event) => {
    event.preventDefault();
    const done = await change('POST', '/raise', { prices: [...ticked.value], lists: which.value ? [which.value] : lists, percent: decimal(percent.value).replace('−', '-'), step: step.value });
    if (done) percent.value = '';
  };
  return html`<form class="card draft-raise" onSubmit=${send}><h2>${t('drafting.raise')}</h2><p class="quiet">${t('drafting.raise-lead', { count: ticked.value.size })}</p>
    <div class="fields"><${TextField} label=${t('drafting.percent')} hint=${t('drafting.percent-hint')} inputmode="decimal" value=${percent.value} onWrite=${(text) => (percent.value = text)} />
      <${SelectField} label=${t('drafting.list')} value=${which.value} options=${[['', t('drafting.every-list')], ...lists.map((one) => [one, one])]} onWrite=${(value) => (which.value = value)} />
      <${SelectField} label=${t('drafting.step')} value=${step.value} options=${STEPS.map((one) => [one, one])} onWrite=${(value) => (step.value = value)} /></div>
    <div class="acts"><button class="button button--heavy" disabled=${busy || !ticked.value.size}>${t('drafting.raise-now')}</button></div></form>`;
};

const Paste = ({ draft, change, busy }) => {
  const text = useSignal('');
  const send = async (event) => {
    event.preventDefault();
    if (await change('PUT', '/prices', { csv: text.value })) text.value = '';
  };
  return html`<form class="card" onSubmit=${send}><h2>${t('drafting.sheet')}</h2><p class="quiet">${t('drafting.sheet-lead')}</p>
    <p class="acts"><a class="button" href=${`${pathOf(draft.id)}/prices.csv`} download>${t('drafting.sheet-out')}</a></p>
    <${TextArea} label=${t('drafting.sheet-in')} rows="5" spellcheck="false" class="draft-text" value=${text.value} onWrite=${(typed) => (text.value = typed)} />
    <div class="acts"><button class="button" disabled=${busy || !text.value.trim()}>${t('drafting.sheet-take')}</button></div></form>`;
};

const Group = ({ draft, of, rows, lists, ticked }) => {
  const on = rows.every((one) => ticked.value.has(one.name));
  const set = (names, wanted) => (ticked.value = new Set([...ticked.value].filter((one) => !names.includes(one)).concat(wanted ? names : [])));
  const label = draft.declared.of.option?.find((one) => one.id === of);
  return html`<tbody><tr class="draft-prices__group"><th scope="rowgroup" colspan=${lists.length + 1}><label class="check"><input type="checkbox" checked=${on} onChange=${(event) => set(rows.map((one) => one.name), event.target.checked)} /> ${say(label?.label) || rows[0].label}</label>
      <${Link} to=${`/book-drafts/${draft.id}/pieces/${rows[0].piece}`}>${t('drafting.open')}<span class="unseen"> ${of}</span><//></th></tr>
    ${rows.length > 1 || label ? rows.map((one) => html`<tr key=${one.name}><th scope="row"><label class="check"><input type="checkbox" checked=${ticked.value.has(one.name)} onChange=${(event) => set([one.name], event.target.checked)} /> ${one.label}</label></th>
      ${lists.map((list) => html`<td key=${list} class="amount" data-of=${list}>${one.cells[list] || t('price.not-priced')}</td>`)}</tr>`) : html`<tr><th scope="row"><span class="quiet">${of}</span></th>${lists.map((list) => html`<td key=${list} class="amount" data-of=${list}>${rows[0].cells[list] || t('price.not-priced')}</td>`)}</tr>`}</tbody>`;
};

export const DraftPrices = ({ draft: id }) => {
  const draft = useDraft(id);
  const { body, problem } = useOfDraft(draft.body, '/prices');
  const { change, problem: refused, busy } = useChange(draft);
  const ticked = useSignal(new Set());
  const open = draft.body?.standing === 'open';
  return html`<${DraftPage} draft=${draft}>${problem && html`<${Notice} problem=${problem} />`}
    ${body && html`${open && html`<${Raise} lists=${body.lists} ticked=${ticked} change=${change} busy=${busy.value} />`}
      ${refused.value && html`<${Notice} problem=${refused.value} />`}
      <section class="card" aria-labelledby="draft-prices"><h2 id="draft-prices">${t('book.prices')} <small>${body.prices.length}</small></h2>
        <div class="scrolls" tabindex="0" role="group" aria-labelledby="draft-prices"><table class="ruled ruled--amounts stacks draft-prices">
        <thead><tr><th scope="col">${t('book.price-line')}</th>${body.lists.map((list) => html`<th key=${list} scope="col" class="amount">${t('book.amount', { list })}</th>`)}</tr></thead>
        ${groupsOf(body.prices).map(([of, rows]) => html`<${Group} key=${of} draft=${draft.body} of=${of} rows=${rows} lists=${body.lists} ticked=${ticked} />`)}</table></div></section>
      ${open && html`<${Paste} draft=${draft.body} change=${change} busy=${busy.value} />`}`}<//>`;
};
