// The way to the safety faults: a line, and a framed one while any stands.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { useReading } from '../../state/reading.js';
import { Link } from '../link/link.js';

const textOf = (count) => (count === 0 ? t('safety.link') : count === 1 ? t('safety.stand') : t('safety.stands', { count }));

const useStanding = () => (useReading(may('see-safety') && '/api/safety-faults').body.value?.faults ?? []).filter((one) => !one.lifted).length;

const Way = ({ count }) => html`<p><${Link} to="/safety" class=${count ? 'safety-stands' : ''}>${textOf(count)}<//></p>`;

export const SafetyLink = () => html`<${Way} count=${useStanding()} />`;

/** Nothing while none stands: for pages whose matter is another. */
export const SafetyStands = () => {
  const count = useStanding();
  return count > 0 && html`<${Way} count=${count} />`;
};
