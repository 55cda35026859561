// Name and password. Used on the first page, and in place when a session has ended, over the work as it lies there.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { signIn } from '../../state/session.js';
import { Refusal } from '../../api.js';
import { TextField } from '../field/field.js';
import { Notice } from '../notice/notice.js';

const asProblem = (error) => (error instanceof Refusal ? error.problem : { title: t('away.title'), detail: t('away.sign-in') });

export const SignInCard = ({ name: known = '', onIn, lead }) => {
  const name = useSignal(known);
  const password = useSignal('');
  const problem = useSignal(null);
  const busy = useSignal(false);
  const enter = async (event) => {
    event.preventDefault();
    busy.value = true;
    problem.value = null;
    try {
      const now = await signIn(name.value.trim(), password.value);
      onIn?.(now);
    } catch (error) {
      problem.value = asProblem(error);
    }
    busy.value = false;
  };
  return html`<form class="sign-in" onSubmit=${enter}>
    ${lead}
    <${TextField} label=${t('sign-in.name')} name="name" autocomplete="username" autocapitalize="none" required
      value=${name.value} onWrite=${(text) => (name.value = text)} />
    <${TextField} label=${t('sign-in.password')} name="password" type="password" autocomplete="current-password" required
      value=${password.value} onWrite=${(text) => (password.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('sign-in.enter')}</button>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
  </form>`;
};
