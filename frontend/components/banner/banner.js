// Says when the server is away or the session has ended, that nothing typed is lost, and what to do.
import { useEffect, useRef } from 'preact/hooks';
import { html } from '../../html.js';
import { away } from '../../api.js';
import { t } from '../../state/language.js';
import { standing, person, findSession } from '../../state/session.js';
import { clearDesk, recallTabs } from '../../state/jobs.js';
import { go } from '../../state/route.js';
import { SignInCard } from '../sign-in-card/sign-in-card.js';

const AwayBanner = () => html`<div class="banner" role="alert">
  <p><b>${t('away.title')}</b> ${t('away.kept')}</p>
  <button class="button" onClick=${findSession}>${t('away.again')}</button>
</div>`;

/** Another person who signs in here does not get the first one's work to see. */
const cameBack = (before) => (now) => {
  if (now.name === before) return;
  clearDesk();
  recallTabs();
  go('/');
};

const EndedDialog = () => {
  const frame = useRef(null);
  useEffect(() => {
    frame.current.showModal();
    frame.current.querySelector('[type=password]').focus();
  }, []);
  const name = person.value?.name ?? '';
  return html`<dialog ref=${frame} class="ended" aria-labelledby="ended-title" onCancel=${(event) => event.preventDefault()}>
    <${SignInCard} name=${name} onIn=${cameBack(name)}
      lead=${html`<h2 id="ended-title">${t('ended.title')}</h2><p>${t('ended.kept')}</p>`} />
  </dialog>`;
};

export const Banner = () => html`
  ${away.value && html`<${AwayBanner} />`}
  ${standing.value === 'ended' && html`<${EndedDialog} />`}
`;
