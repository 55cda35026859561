// A rejected shell that the firm sells as it is, from stock: by which concession is said first. For the manager.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { errorOf, useSending } from '../../state/sending.js';
import { Folded } from '../folded/folded.js';
import { TextArea, typed } from '../field/field.js';
import { Link } from '../link/link.js';
import { Notice } from '../notice/notice.js';

const Form = ({ shell, onSold }) => {
  const why = useSignal('');
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/shells/${shell}/second`, { why: why.value });
    if (after) onSold(after);
  };
  return html`<form class="money-form" onSubmit=${press}><p class="money-form__lead quiet">${t('second.lead')}</p>
    <${TextArea} class="field--wide" label=${t('second.why')} hint=${t('second.why-hint')} rows="2" required maxlength="10000" error=${errorOf(problem, 'why')} ...${typed(why)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('second.take')}</button>
    ${problem.value && !problem.value.errors && html`<${Notice} problem=${problem.value} />`}</form>`;
};

/** `shell`: its key on the floor; `onSold`: told how it stands there afterwards. */
export const SellAsSecond = ({ shell, onSold }) => {
  const sold = useSignal(false);
  if (!may('sell-seconds')) return null;
  if (sold.value) return html`<p role="status"><b>${t('second.taken')}</b> <${Link} to="/calendar">${t('second.look')}<//></p>`;
  const told = (after) => {
    sold.value = true;
    onSold?.(after);
  };
  return html`<${Folded} label=${t('second.open')}>${() => html`<${Form} shell=${shell} onSold=${told} />`}<//>`;
};
