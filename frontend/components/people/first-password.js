// A first password, told once to whoever hands it over.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { ShownOnce } from '../shown-once/shown-once.js';

/** `told`: the person with `password`; null where the same request had made it before. */
export const FirstPassword = ({ told, onDone }) =>
  told.password
    ? html`<${ShownOnce} title=${t('people.told', { name: told.display_name })} label=${t('people.first-password', { name: told.name })} secret=${told.password} noted=${t('people.noted')} onDone=${onDone}><p>${t('people.once')}</p><//>`
    : html`<p role="status">${t('people.lost')}</p>`;
