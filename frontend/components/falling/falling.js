// Asked before money is undone that slots rest on: which are given back, and to whom a letter goes.
import { useEffect } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { get } from '../../api.js';
import { problemOf } from '../../state/sending.js';
import { Moves } from '../moves/moves.js';
import { Notice } from '../notice/notice.js';

/** `problem`: why it was refused; `onAgree(token)` sends it once more with what was shown. */
export const Refused = ({ number, problem, busy, onAgree }) => {
  const [shown, failed] = [useSignal(null), useSignal(null)];
  const follows = problem.type === '/problems/slots-follow';
  useEffect(() => {
    shown.value = null;
    if (follows) get(`/api/orders/${number}/slots/what-falls`).then(({ body }) => (shown.value = body), (error) => (failed.value = problemOf(error)));
  }, [problem]);
  return html`<${Notice} problem=${failed.value ?? problem} />
    ${shown.value && html`<${Moves} proposal=${shown.value}><button type="button" class="button button--heavy" disabled=${busy} onClick=${() => onAgree(shown.value.token)}>${t('payment.give-back')}</button><//>`}`;
};
