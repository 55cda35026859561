// A short form in which somebody says something for the record: what is wrong stands beside its field, all else below.
import { html } from '../../html.js';
import { errorOf, useSending } from '../../state/sending.js';
import { Notice } from '../notice/notice.js';

/**
 * `fields(errors)`: the fields, `errors(name)` what is wrong with one; `body()`: what they say, sent to `path`; `keep`: on
 * the button; `onSaid(after)`: what the server answers.
 */
export const SaidForm = ({ path, body, lead, keep, fields, onSaid }) => {
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const after = await send(path, body());
    if (after) onSaid(after);
  };
  return html`<form class="money-form" onSubmit=${press}>${lead && html`<p class="money-form__lead quiet">${lead}</p>`}
    ${fields((name) => errorOf(problem, name))}
    <button class="button button--heavy" disabled=${busy.value}>${keep}</button>
    ${problem.value && !problem.value.errors && html`<${Notice} problem=${problem.value} />`}</form>`;
};
