// Where the code on a build sheet leads: whether that sheet still holds, said to anybody, and nothing more.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { get } from '../api.js';
import { Masthead } from '../components/masthead/masthead.js';

const saidOf = (error) => (error.status === 404 ? 'unknown' : 'away');

export const SheetCode = ({ code }) => {
  const says = useSignal('');
  useEffect(() => void get(`/api/sheet-codes/${encodeURIComponent(code)}`).then(({ body }) => (says.value = body.current ? 'current' : 'old'), (error) => (says.value = saidOf(error))), [code]);
  return html`<${Masthead} /><main id="content" class="first-page"><div class="card sheet-code sheet-code--${says.value}" role="status">
    <h1>${says.value ? t(`sheet-code.${says.value}`) : t('waiting')}</h1>${says.value && html`<p>${t(`sheet-code.${says.value}-then`)}</p>`}</div></main>`;
};
