// Customers' parts: one is found by the number on its tag, typed or scanned; below it what is awaited and what lies here.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { may } from '../state/session.js';
import { go } from '../state/route.js';
import { useReading } from '../state/reading.js';
import { TextField } from '../components/field/field.js';
import { PartRow, partPath } from '../components/customers-part/part-row.js';
import { Notice } from '../components/notice/notice.js';

const WRITTEN = /([\w.-]+)\/(\d+\.\d+)\/([\w-]+)/;

/** A tag's number as it is typed or scanned, the desk's address before it or not; null where it is none. */
const tagOf = (text) => {
  const found = WRITTEN.exec(text.replaceAll(' ', ''));
  return found && `${found[1].toUpperCase()}/${found[2]}/${found[3]}`;
};

const Find = () => {
  const [text, wrong] = [useSignal(''), useSignal(false)];
  const press = (event) => {
    event.preventDefault();
    const tag = tagOf(text.value);
    wrong.value = !tag;
    if (tag) go(partPath(tag));
  };
  return html`<form class="floor-form receipt__find" onSubmit=${press}><${TextField} label=${t('receipt.tag')} hint=${t('receipt.tag-hint')} required autocomplete="off" autocapitalize="characters" spellcheck=${false}
    error=${wrong.value ? t('receipt.no-tag') : undefined} value=${text.value} onWrite=${(said) => (text.value = said)} /><button class="button button--heavy">${t('receipt.open')}</button></form>`;
};

const Awaited = () => {
  const { body, problem } = useReading('/api/parts');
  if (problem.value) return html`<${Notice} problem=${problem.value} />`;
  if (!body.value) return null;
  return html`<h2>${t('receipt.awaited')}</h2>${body.value.parts.length ? html`<ul class="receipt-rows">${body.value.parts.map((part) => html`<${PartRow} key=${part.tag} part=${part} />`)}</ul>` : html`<p class="quiet">${t('receipt.none')}</p>`}`;
};

export const PartsPage = () => html`<div class="work floor"><h1>${t('receipt.title')}</h1><p class="quiet">${t('receipt.lead')}</p><${Find} />${may('see-floor') && html`<${Awaited} />`}</div>`;
