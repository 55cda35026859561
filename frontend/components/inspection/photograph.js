// Photographs against the point that is read: taken with the tablet, sent as they are, kept through a lost signal, shown with who took them.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { dayAndTime } from '../../format.js';
import { sendFiles, uploadsTo } from '../../state/photographs.js';
import { Choose, Going } from '../photographs/photographs.js';

const Taken = ({ one, subject }) => html`<li class="photograph"><a href=${one.url} target="_blank" rel="noopener"><img src=${one.small_url} alt=${t('inspect.photograph-of', { what: subject.label || subject.says })} width="160" height="120" loading="lazy" /></a>
  <div><small class="quiet">${one.by_name}, ${dayAndTime(one.at)}</small></div></li>`;

/** `onShell`: the inspection as it stands after each photograph that arrived. */
export const Photograph = ({ one, subject, onShell }) => {
  const of = uploadsTo(`/api/shells/${one.shell}/inspection/photographs`, onShell);
  const ofPoint = (all) => all.filter((each) => each.subject === subject.id);
  const [taken, going] = [ofPoint(one.photographs), ofPoint(of.going.value)];
  return html`<div class="inspect-photographs">
    ${may('take-readings') && html`<${Choose} label=${t('inspect.photograph')} camera=${true} onFiles=${(files) => sendFiles(of, files, { subject: subject.id })} />`}
    ${taken.length + going.length > 0 && html`<ul class="photographs__list">${taken.map((each) => html`<${Taken} key=${each.id} one=${each} subject=${subject} />`)}
      ${going.map((each) => html`<${Going} key=${each.key} of=${of} one=${each} said=${subject.label || subject.says} />`)}</ul>`}</div>`;
};
