// A link to another page of the desk. Only its own plain click is taken; with a key held the browser does as always.
import { html } from '../../html.js';
import { go } from '../../state/route.js';

const isPlain = (event) => event.button === 0 && !(event.metaKey || event.ctrlKey || event.shiftKey || event.altKey);

export const Link = ({ to, children, ...rest }) => {
  const follow = (event) => {
    if (!isPlain(event)) return;
    event.preventDefault();
    go(to);
  };
  return html`<a href=${to} onClick=${follow} ...${rest}>${children}</a>`;
};
