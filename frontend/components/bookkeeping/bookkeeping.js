// What the bookkeeper takes over: all documents and payments of a period, as one table to download.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may, today } from '../../state/session.js';
import { TextField } from '../field/field.js';

export const Bookkeeping = () => {
  const until = useSignal(today());
  const since = useSignal(`${until.value.slice(0, 8)}01`);
  if (!may('see-books')) return null;
  const whole = since.value && until.value && since.value <= until.value;
  return html`<details class="card"><summary>${t('books.title')}</summary><p class="quiet">${t('books.lead')}</p><div class="money-form">
    <${TextField} label=${t('books.since')} type="date" value=${since.value} onWrite=${(text) => (since.value = text)} />
    <${TextField} label=${t('books.until')} type="date" value=${until.value} error=${whole ? undefined : t('books.turned')} onWrite=${(text) => (until.value = text)} />
    ${whole && html`<a class="button" href=${`/api/bookkeeping.csv?since=${since.value}&until=${until.value}`}>${t('books.fetch')}</a>`}</div></details>`;
};
