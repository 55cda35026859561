// The jobs put aside, as tabs of job cards. One press resumes one; the desk is one press away from any.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { asides, putAway, titleOf } from '../../state/jobs.js';
import { path } from '../../state/route.js';
import { Link } from '../link/link.js';

const Tab = ({ tab }) => {
  const title = titleOf(tab) || t('asides.unnamed');
  return html`<li class="job-tab">
    <${Link} to=${tab.path} aria-current=${path.value === tab.path ? 'page' : undefined}>${title}<//>
    <button class="plain job-tab__away" aria-label=${t('asides.away', { title })} title=${t('asides.away', { title })}
      onClick=${() => putAway(tab.path)}>×</button>
  </li>`;
};

export const JobTabs = () =>
  asides.value.length > 0 &&
  html`<nav class="job-tabs" aria-label=${t('asides.label')}><ul>
    ${asides.value.map((tab) => html`<${Tab} key=${tab.path} tab=${tab} />`)}
  </ul></nav>`;
