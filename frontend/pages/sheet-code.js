// Where the code on a build sheet leads: whether that sheet still holds, said to anybody. Whom sheets are shown to is told
// besides which revision to fetch and what changed, and led to the shell's inspection, and nobody else.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { get } from '../api.js';
import { may, person } from '../state/session.js';
import { useReading } from '../state/reading.js';
import { Masthead } from '../components/masthead/masthead.js';

const saidOf = (error) => (error.status === 404 ? 'unknown' : 'away');

const Fetch = ({ code }) => {
  const found = useReading(`/api/sheet-codes/${encodeURIComponent(code)}/sheet`).body.value;
  if (found?.current) return found.serial && may('take-readings') && html`<p><a class="button button--heavy" href=${`/inspections/${found.serial}`}>${t('inspect.floor')}</a></p>`;
  if (!found) return null;
  return html`<p class="sheet-code__fetch"><b>${found.says}</b></p>
    ${found.sheet && html`<p><a class="button button--heavy" target="_blank" rel="noopener" href=${found.sheet}>${t('sheets.fetch', { serial: found.serial, revision: found.fetch ?? '' })}</a></p>`}`;
};

export const SheetCode = ({ code }) => {
  const says = useSignal('');
  useEffect(() => void get(`/api/sheet-codes/${encodeURIComponent(code)}`).then(({ body }) => (says.value = body.current ? 'current' : 'old'), (error) => (says.value = saidOf(error))), [code]);
  return html`<${Masthead} /><main id="content" class="first-page"><div class="card sheet-code sheet-code--${says.value}" role="status">
    <h1>${says.value ? t(`sheet-code.${says.value}`) : t('waiting')}</h1>${['old', 'current'].includes(says.value) && person.value && may('see-build-sheets') && html`<${Fetch} code=${code} />`}
    ${says.value && html`<p>${t(`sheet-code.${says.value}-then`)}</p>`}</div></main>`;
};
