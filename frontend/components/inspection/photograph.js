// A photograph against the point that is read: taken with the tablet, sent as it is, shown with who took it.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { may } from '../../state/session.js';
import { dayAndTime } from '../../format.js';
import { freshKey, upload } from '../../api.js';
import { problemOf } from '../../state/sending.js';
import { Notice } from '../notice/notice.js';

const Taken = ({ one, subject }) => html`<li class="photograph"><a href=${one.url} target="_blank" rel="noopener"><img src=${one.small_url} alt=${t('inspect.photograph-of', { what: subject.label || subject.says })} width="160" height="120" loading="lazy" /></a>
  <div><small class="quiet">${one.by_name}, ${dayAndTime(one.at)}</small></div></li>`;

/** A file that could not be sent stays in hand until it is sent or another is taken. */
const useTaking = (one, subject, onShell) => {
  const [going, problem] = [useSignal(null), useSignal(null)];
  const send = async () => {
    const { file, key } = going.value;
    problem.value = null;
    try {
      const about = new URLSearchParams({ subject: subject.id });
      onShell(await upload(`/api/shells/${one.shell}/inspection/photographs?${about}`, file, { key, onPart: (share) => (going.value = { ...going.value, share }) }));
      going.value = null;
    } catch (error) {
      problem.value = problemOf(error);
    }
  };
  const take = (event) => {
    const [file] = event.target.files;
    if (file) void ((going.value = { file, key: freshKey(), share: 0 }), send());
    event.target.value = '';
  };
  return { going, problem, send, take };
};

export const Photograph = ({ one, subject, onShell }) => {
  const taken = one.photographs.filter(({ subject: of }) => of === subject.id);
  const { going, problem, send, take } = useTaking(one, subject, onShell);
  return html`<div class="inspect-photographs">
    ${may('take-readings') && html`<label class="button inspect-file">${t('inspect.photograph')}<input type="file" accept="image/jpeg,image/png,image/webp" capture="environment" onChange=${take} /></label>`}
    ${going.value && !problem.value && html`<progress max="1" value=${going.value.share} aria-label=${t('inspect.photograph')}></progress>`}
    ${problem.value && html`<${Notice} problem=${problem.value} /><button type="button" class="button" onClick=${send}>${t('inspect.again')}</button>`}
    ${taken.length > 0 && html`<ul class="photographs__list">${taken.map((each) => html`<${Taken} key=${each.id} one=${each} subject=${subject} />`)}</ul>`}</div>`;
};
