// The floor at a glance: how many are where, what is stopped and why, what waits for a signature or an answer. Each line leads there.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { openRework } from '../rework/rework.js';
import { zonesToSign } from '../weld-zones/weld-zones.js';

/** Why nothing is done to it, each in a sentence. */
export const stopsOf = (shell) => [
  ...(shell.held ? [shell.held] : []),
  ...openRework(shell).map((one) => t('rework.stops', { about: one.says })),
  ...shell.stops.map(({ says }) => says),
];

/** Where a shell stands on the page. */
export const placeId = (shell) => `shell-${shell.id}`;

const lead = (id) => {
  const there = document.getElementById(id);
  there?.scrollIntoView({ block: 'start' });
  there?.focus();
};

const Line = ({ to, children }) => html`<li><button class="floor-today__line" onClick=${() => lead(to)}>${children}</button></li>`;

/** For whom: an order and which of its shells, or the firm's stock. */
export const forWhom = ({ order, shell, of, letter }) => (letter ? t('floor.which', { order, shell, of }) : t('stock.on-floor', { order }));

const nameOf = (shell) => shell.serial ?? forWhom(shell);

const Stopped = ({ shells }) => shells.length > 0 && html`<h2>${t('floor.stopped')} <small>${t('floor.count', { count: shells.length })}</small></h2>
  <ul>${shells.map((shell) => html`<${Line} key=${shell.id} to=${placeId(shell)}><b>${nameOf(shell)}</b> <span>${say(shell.name)}</span> <span class="floor-today__why">${stopsOf(shell).join(' ')}</span><//>`)}</ul>`;

const Waits = ({ title, shells, text }) => shells.length > 0 && html`<h2>${title}</h2>
  <ul>${shells.map((shell) => html`<${Line} key=${shell.id} to=${placeId(shell)}><b>${nameOf(shell)}</b> <span>${text(shell)}</span><//>`)}</ul>`;

const askedOf = (shell) => shell.concessions.filter(({ standing }) => standing === 'asked');

export const FloorToday = ({ sections, countText }) => {
  const shells = sections.flatMap((section) => section.shells).filter(({ state }) => state !== 'rejected');
  return html`<section class="card floor-today" aria-label=${t('floor.today')}><ul class="floor-today__stages">${sections.map((section) => html`<${Line} key=${section.id} to=${`stage-${section.id}`}><b>${section.title}</b> <span>${countText(section)}</span><//>`)}</ul>
    <${Stopped} shells=${shells.filter((shell) => stopsOf(shell).length)} />
    <${Waits} title=${t('zones.waiting')} shells=${shells.filter((shell) => shell.serial && !stopsOf(shell).length && zonesToSign(shell).length)} text=${(shell) => t('zones.left', { count: zonesToSign(shell).length })} />
    <${Waits} title=${t('concession.title')} shells=${shells.filter((shell) => askedOf(shell).length)} text=${(shell) => askedOf(shell).map(({ says }) => says).join(', ')} /></section>`;
};
