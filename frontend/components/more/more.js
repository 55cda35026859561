// What stands beneath a list that goes on: a button for more. Whoever presses it goes on reading at the first row that came.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { Live } from '../live/live.js';

/** "12", or "more than 25" where the list goes on: nobody counts all of them for that. */
export const countText = ({ rows, next }) => (next ? t('list.more-than', { count: rows.length }) : String(rows.length));

/** After the page has been drawn with the new rows. */
const goTo = (list, at) => requestAnimationFrame(() => document.getElementById(list)?.children[at]?.querySelector('a, button')?.focus());

/** `list`: the id of the list above; `of`: what it is a list of, for whoever only hears the button. */
export const More = ({ pages, list, of }) => {
  const told = useSignal('');
  const press = async () => {
    const before = pages.rows.length;
    told.value = '';
    if (!(await pages.more())) return;
    told.value = t('list.longer', { what: of });
    goTo(list, before);
  };
  return html`<${Live} text=${told.value} />${pages.next && html`<div class="acts"><button class="button" onClick=${press}>${t('work.more')}<span class="unseen"> (${of})</span></button></div>`}`;
};
