// The address in a paper's square code: leads to its quotation, if the reader may see it.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { get } from '../api.js';
import { go } from '../state/route.js';
import { NotFound } from './not-found.js';

export const Code = ({ code }) => {
  const missing = useSignal(false);
  useEffect(() => {
    get(`/api/codes/${encodeURIComponent(code)}`).then(({ body }) => go(`/quotations/${body.number}`, { instead: true }), () => (missing.value = true));
  }, [code]);
  return missing.value ? html`<${NotFound} />` : html`<p class="quiet waiting">${t('waiting')}</p>`;
};
