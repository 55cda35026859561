// What was done, when and by whom.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { dayAndTime } from '../../format.js';

/** `history`: [{at, by, by_name, what}] in its order. */
export const Entries = ({ history }) =>
  html`<ol class="history">${history.map((entry, at) => html`<li key=${at}><time>${dayAndTime(entry.at)}</time> ${entry.by_name ?? entry.by}: ${entry.what}</li>`)}</ol>`;

export const History = ({ history, title = t('history.title') }) => html`<section class="card" aria-labelledby="history-title"><h2 id="history-title">${title}</h2>
  <${Entries} history=${history} /></section>`;
