// The head of every page: the firm, where one can go, the language, the price switch, who is signed in.
import { html } from '../../html.js';
import { t, language, LANGUAGES } from '../../state/language.js';
import { person, session, may, isDealer, pricesShown, showPrices, signOut, switchLanguage } from '../../state/session.js';
import { newJob, clearDesk } from '../../state/jobs.js';
import { go, place } from '../../state/route.js';
import { Link } from '../link/link.js';

const Page = ({ to, page, children }) =>
  html`<${Link} to=${to} class="masthead__page" aria-current=${place.value.page === page ? 'page' : undefined}>${children}<//>`;

const Pages = () => html`<nav class="masthead__pages" aria-label=${t('nav.label')}>
  ${may('read-quotations') && html`<${Page} to="/" page="desk">${t('nav.desk')}<//>`}
  ${may('see-work-to-come') && html`<${Page} to=${may('read-quotations') ? '/work-to-come' : '/'} page=${may('read-quotations') ? 'coming' : 'desk'}>${t('nav.work-to-come')}<//>`}
  ${may('see-approvals') && html`<${Page} to="/approvals" page="approvals">${t('nav.approvals')}<//>`}
  ${may('see-book') && html`<${Page} to="/book" page="book">${t('nav.book')}<//>`}
  ${may('see-tools') && html`<${Page} to="/tools" page="tools">${t('nav.tools')}<//>`}
  ${may('enquire') && html`<button class="button button--heavy" onClick=${newJob}>${t('nav.new')}</button>`}
</nav>`;

const Languages = () => html`<div class="masthead__languages" role="group" aria-label=${t('nav.language')}>
  ${LANGUAGES.map((one) => html`<button key=${one} lang=${one} class="plain" aria-pressed=${language.value === one}
    onClick=${() => switchLanguage(one)}>${{ en: 'English', de: 'Deutsch' }[one]}</button>`)}
</div>`;

const PriceSwitch = () => html`<button class="price-switch" role="switch" aria-checked=${pricesShown.value}
  onClick=${() => showPrices(!pricesShown.value)}>
  <span class="price-switch__track" aria-hidden="true"><span class="price-switch__knob"></span></span>
  <span>${t(pricesShown.value ? 'prices.shown' : 'prices.hidden')}</span>
</button>`;

const leave = async () => {
  await signOut();
  clearDesk();
  go('/');
};

export const Masthead = () => html`<header class="masthead">
  <div class="masthead__firm"><b>${session.value?.firm?.name ?? ''}</b><span>${t('masthead.desk')}</span></div>
  ${person.value && html`<${Pages} />`}
  ${isDealer.value && may('see-prices') && html`<${PriceSwitch} />`}
  <div class="masthead__who">
    <${Languages} />
    ${person.value && html`<span class="masthead__name">${person.value.display_name}${person.value.dealer_name && html`<small>${person.value.dealer_name}</small>`}</span>
      <button class="plain" onClick=${leave}>${t('session.leave')}</button>`}
  </div>
</header>`;
