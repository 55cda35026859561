// The shells of an order on their way out: each is billed, packed and despatched by itself.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { useReading } from '../../state/reading.js';
import { useReady } from '../../state/coming.js';
import { useSigners } from '../../state/signers.js';
import { Notice } from '../notice/notice.js';
import { ShellOut } from '../shell-out/shell-out.js';
import { WriteBill } from '../write-bill/write-bill.js';

const OVER = ['rejected', 'cancelled'];

const Bill = ({ order, shell, onOrder }) =>
  may('bill') && !shell.invoice && html`<${WriteBill} order=${order} path=${`/api/orders/${order.number}/invoices`} body=${{ shell: shell.id }} label=${t('leaving.bill')} says=${t('leaving.bill-says')} onOrder=${onOrder} />`;

export const OrderLeaving = ({ order, onOrder, onChange, onReady }) => {
  const read = useReading(`/api/orders/${order.number}/leaving`, order);
  const { body, problem } = read;
  useReady(read, onReady);
  const signers = useSigners();
  const shells = (body.value?.shells ?? []).filter(({ serial, state }) => serial && !OVER.includes(state));
  if (problem.value) return html`<${Notice} problem=${problem.value} />`;
  if (!shells.length) return null;
  return html`<section class="card" aria-labelledby="leaving-title"><h2 id="leaving-title">${t('leaving.title')}</h2>
    <ul class="leavings leavings--order">${shells.map((shell) => html`<${ShellOut} key=${shell.id} shell=${shell} signers=${signers} onShell=${onChange}><${Bill} order=${order} shell=${shell} onOrder=${onOrder} /><//>`)}</ul></section>`;
};
