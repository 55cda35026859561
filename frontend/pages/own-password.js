// One's own password: by whoever likes to, and by whoever came in with a first one before anything else opens.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { choosePassword, firstPassword } from '../state/session.js';
import { errorOf, problemOf } from '../state/sending.js';
import { TextField } from '../components/field/field.js';
import { Notice } from '../components/notice/notice.js';

const EMPTY = { current: '', wanted: '', again: '' };

export const OwnPassword = () => {
  const [typed, problem, busy, done] = [useSignal(EMPTY), useSignal(null), useSignal(false), useSignal(false)];
  const differs = useSignal(false);
  const field = (name, label, more) => html`<${TextField} label=${t(label)} type="password" required maxlength="200" value=${typed.value[name]}
    onWrite=${(text) => ((typed.value = { ...typed.value, [name]: text }), (differs.value = false), (done.value = false))} ...${more} />`;
  const change = async () => {
    busy.value = true;
    await choosePassword(typed.value.current, typed.value.wanted).then(
      () => ((typed.value = EMPTY), (problem.value = null), (done.value = true)),
      (error) => (problem.value = problemOf(error)),
    );
    busy.value = false;
  };
  const press = (event) => {
    event.preventDefault();
    differs.value = typed.value.wanted !== typed.value.again;
    if (!differs.value) change();
  };
  return html`<div class="work own-password"><h1>${t('password.title')}</h1><p>${t(firstPassword.value ? 'password.lead-first' : 'password.lead')}</p>
    <form class="card house__form" onSubmit=${press}>
      ${field('current', firstPassword.value ? 'password.current-first' : 'password.current', { autocomplete: 'current-password', error: errorOf(problem, 'current') })}
      ${field('wanted', 'password.new', { autocomplete: 'new-password', minlength: '12', hint: t('password.hint'), error: errorOf(problem, 'new') })}
      ${field('again', 'password.again', { autocomplete: 'new-password', error: differs.value ? t('password.differs') : undefined })}
      <button class="button button--heavy" disabled=${busy.value}>${t('password.change')}</button>
      ${problem.value && html`<${Notice} problem=${problem.value} />`}
      <p role="status" class="own-password__done">${done.value && t('password.done')}</p></form></div>`;
};
