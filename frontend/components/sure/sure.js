// What can't be taken back takes two presses: the first says what comes of it, the second does it.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { Folded } from '../folded/folded.js';

/** `says`: what comes of it, read before the second press. */
export const Sure = ({ label, says, busy = false, onPress }) => html`<${Folded} label=${`${label} …`}>${(close) => html`<div class="sure"><p>${says}</p>
  <div class="acts"><button class="button button--heavy" disabled=${busy} onClick=${onPress}>${label}</button>
    <button class="button" onClick=${close}>${t('customers.leave')}</button></div></div>`}<//>`;
