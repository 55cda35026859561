// The tray with the job cards that were laid aside: one press takes one up again. A card that was thrown away lies on the
// edge until something else happens, to be brought back.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { asides, thrown, bringBack, titleOf } from '../../state/jobs.js';
import { path } from '../../state/route.js';
import { Link } from '../link/link.js';

const Card = ({ card }) => {
  const [number, name] = titleOf(card);
  return html`<li class="tray__card"><${Link} to=${card.path}>
    ${number && html`<b>${number}</b> `}<span>${name || (number ? '' : t('asides.unnamed'))}</span><//></li>`;
};

const Thrown = () => html`<p class="tray__thrown" role="status">${t('asides.thrown', { title: thrown.value.title || t('asides.unnamed') })}
  <button class="plain" onClick=${bringBack}>${t('asides.bring-back')}</button></p>`;

export const Tray = () => {
  const others = asides.value.filter((card) => card.path !== path.value);
  return html`${thrown.value && html`<${Thrown} />`}
    ${others.length > 0 && html`<nav class="tray" aria-labelledby="tray-title"><p id="tray-title">${t('asides.label')}</p>
      <ul>${others.map((card) => html`<${Card} key=${card.path} card=${card} />`)}</ul></nav>`}`;
};
