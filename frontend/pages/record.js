// The as-built record behind a paper's code: said to anybody, with its SHA-256, worked out here again where the browser can.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { useReading } from '../state/reading.js';
import { Masthead } from '../components/masthead/masthead.js';

const hashOf = async (text) => {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
};

/** `own`: as this browser works it out; empty where it can't, as without encryption. */
const Found = ({ code, found, own }) => html`<h1>${t('record.title')}</h1>
  <p><b>${t(own === null ? 'record.checking' : own && own !== found.sha256 ? 'record.differs' : found.whole ? 'record.checked' : 'record.differs')}</b></p>
  <dl><dt>${t('record.hash')}</dt><dd class="record-hash">${found.sha256}</dd></dl>
  <p>${t('record.how')} <a href=${`/api/as-built/${code}/text`} download>${t('record.keep')}</a></p>
  <pre class="record-text" tabindex="0" aria-label=${t('record.title')}>${found.text}</pre>`;

const Unknown = ({ away }) => html`<h1>${t(away ? 'sheet-code.away' : 'record.unknown')}</h1><p>${t(away ? 'sheet-code.away-then' : 'record.unknown-then')}</p>`;

export const AsBuilt = ({ code }) => {
  const { body, problem } = useReading(`/api/as-built/${encodeURIComponent(code)}`);
  const own = useSignal(null);
  const found = body.value;
  useEffect(() => {
    if (!found) return;
    if (crypto.subtle) hashOf(found.text).then((hash) => (own.value = hash));
    else own.value = '';
  }, [found]);
  return html`<${Masthead} /><main id="content" class="first-page"><div class="card record">
    ${problem.value ? html`<${Unknown} away=${problem.value.status !== 404} />` : found ? html`<${Found} code=${code} found=${found} own=${own.value} />` : html`<h1>${t('waiting')}</h1>`}</div></main>`;
};
