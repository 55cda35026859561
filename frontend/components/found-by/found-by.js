// By what a row was found: which fact holds the words that were sought. Shown only while something is sought.
import { html } from '../../html.js';
import { t } from '../../state/language.js';

/** A name that stands in the row needs no telling; the name of before a merger does. */
export const FoundBy = ({ hits }) => {
  const told = (hits ?? []).filter(({ sort }) => sort !== 'name');
  return told.length > 0 && html`<small class="found-by">${told.map(({ sort, text }) => `${t(`customers.found.${sort}`)} ${text}`).join(' · ')}</small>`;
};
