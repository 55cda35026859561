// The papers that go with a shell, each in every language and size, and the code of its as-built record.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { Link } from '../link/link.js';
import { SheetLinks } from '../papers/sheet-links.js';

const Paper = ({ paper, papers }) => html`<li><b>${t(`leaving.paper.${paper}`)}</b> <span class="document__papers"><${SheetLinks} papers=${papers} of=${t(`leaving.paper.${paper}`)} /></span></li>`;

export const ShellPapers = ({ shell }) =>
  (shell.papers.length > 0 || shell.record) &&
  html`<details class="leaving__papers"><summary>${t('leaving.papers')}</summary><ul>${shell.papers.map((one) => html`<${Paper} key=${one.paper} ...${one} />`)}</ul>
    ${shell.record && html`<p><${Link} to=${`/r/${shell.record}`}>${t('leaving.record')}<//></p>`}</details>`;
