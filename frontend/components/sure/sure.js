// What can't be taken back takes two presses: the first says what comes of it, the second does it.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { Folded } from '../folded/folded.js';

/** `says`: what comes of it, read before the second press, which is `yes`; `no` leaves all as it is. */
export const Sure = ({ label, says, yes = label, no = t('customers.leave'), busy = false, onPress }) => html`<${Folded} label=${`${label} …`}>${(close) => html`<div class="sure"><p>${says}</p>
  <div class="acts"><button class="button button--heavy" disabled=${busy} onClick=${onPress}>${yes}</button>
    <button class="button" onClick=${close}>${no}</button></div></div>`}<//>`;
