// When what the page shows was last so. It takes the same room whatever it says.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { away } from '../../api.js';
import { offline } from '../../state/fresh.js';
import { timeOfDay } from '../../format.js';

/** `at`: a signal, read here alone: the page isn't drawn again for it. */
export const AsOf = ({ at }) => {
  const old = away.value || offline.value;
  return at.value && html`<p class=${old ? 'quiet as-of as-of--away' : 'quiet as-of'}>${t(old ? 'as-of.away' : 'as-of.at', { time: timeOfDay(at.value) })}</p>`;
};
