// A rejected shell that the firm sells as it is, from stock: by which concession is said first. For the manager.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { Folded } from '../folded/folded.js';
import { TextArea, typed } from '../field/field.js';
import { Link } from '../link/link.js';
import { SaidForm } from '../said-form/said-form.js';

const Form = ({ shell, onSold }) => {
  const why = useSignal('');
  return html`<${SaidForm} path=${`/api/shells/${shell}/second`} body=${() => ({ why: why.value })} lead=${t('second.lead')} keep=${t('second.take')} onSaid=${onSold} fields=${(errors) => html`
    <${TextArea} class="field--wide" label=${t('second.why')} hint=${t('second.why-hint')} rows="2" required maxlength="10000" error=${errors('why')} ...${typed(why)} />`} />`;
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
