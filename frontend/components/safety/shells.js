// Shells that a safety fault may be in, by how far each has come. To read only.
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';

/** What has left the house first: its owners may be driving it. */
const GROUPS = ['despatched', 'stopped', 'not_released'];

const where = (one) => (one.stage_label ? say(one.stage_label) : t(`shell.${one.state}`));

const Shell = ({ one }) => html`<li class="follows__shell"><b>${one.serial ?? t('order.no-serial')}</b> <span>${t('follows.of-order', { order: one.order, shell: one.shell })}</span> <span>${say(one.name)}</span> <span>${where(one)}</span></li>`;

const FEW = 5;

const Group = ({ sort, shells, lifted }) =>
  shells.length > 0 &&
  html`<details class="folded follows__group" open=${shells.length <= FEW}><summary><span class="follows__head">${t(`${lifted ? 'safety.shells-lifted' : 'safety.shells'}.${sort}`)} <small>${shells.length}</small></span></summary>
    <ul>${shells.map((one) => html`<${Shell} key=${one.id} one=${one} />`)}</ul></details>`;

/** `lifted`: nothing stops any more. */
export const SafetyShells = ({ shells, without = [], lifted = false }) => {
  const shown = GROUPS.filter((sort) => !without.includes(sort));
  const none = GROUPS.every((sort) => !shells[sort].length);
  return none ? html`<p>${t('safety.no-shell')}</p>` : shown.map((sort) => html`<${Group} key=${sort} sort=${sort} shells=${shells[sort]} lifted=${lifted} />`);
};
