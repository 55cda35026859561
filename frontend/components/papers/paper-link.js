// A paper as a link that opens the PDF: what it is called, and what is said of it beneath.
import { html } from '../../html.js';

/** `own`: the one for its reader, in his language and size. */
export const PaperLink = ({ href, name, own = false, children }) => html`<li><a class=${`paper ${own ? 'paper--own' : ''}`} target="_blank" rel="noopener" href=${href}>
  <span class="paper__sheet" aria-hidden="true">PDF</span><span><b>${name}</b><br />${children}</span></a></li>`;
