// The address in a paper's square code: leads to its quotation, the workshop to what it may read of it.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { may } from '../state/session.js';
import { get } from '../api.js';
import { go } from '../state/route.js';
import { NotFound } from './not-found.js';

export const Code = ({ code }) => {
  const missing = useSignal(false);
  useEffect(() => {
    const folder = may('read-quotations') ? 'quotations' : 'work-to-come';
    get(`/api/codes/${encodeURIComponent(code)}`).then(({ body }) => go(`/${folder}/${body.number}`, { instead: true }), () => (missing.value = true));
  }, [code]);
  return missing.value ? html`<${NotFound} />` : html`<p class="quiet waiting">${t('waiting')}</p>`;
};
