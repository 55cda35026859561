// The head of every page: the firm, where one can go, the language, the price switch, who is signed in. On a telephone what
// is seldom needed is folded away behind one button.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, language, LANGUAGES } from '../../state/language.js';
import { firstPassword, person, session, may, isDealer, pricesShown, showPrices, signOut, switchLanguage } from '../../state/session.js';
import { newJob, clearDesk } from '../../state/jobs.js';
import { go, place } from '../../state/route.js';
import { narrow } from '../../state/narrow.js';
import { Link } from '../link/link.js';

const Page = ({ to, page, children }) =>
  html`<${Link} to=${to} class="masthead__page" aria-current=${place.value.page === page ? 'page' : undefined}>${children}<//>`;

const Main = () => may('read-quotations') && html`<${Page} to="/" page="desk">${t('nav.desk')}<//>`;

const New = () => may('enquire') && html`<button class="button button--heavy" onClick=${newJob}>${t('nav.new')}</button>`;

const Others = () => html`
  ${may('read-orders') && html`<${Page} to="/orders" page="orders">${t('nav.orders')}<//>`}
  ${may('sign-stages') && html`<${Page} to="/floor" page="floor">${t('nav.floor')}<//>`}
  ${may('sign-stages') && html`<${Page} to="/inspections" page="inspections">${t('nav.inspections')}<//>`}
  ${may('see-calendar') && html`<${Page} to="/calendar" page="calendar">${t('nav.calendar')}<//>`}
  ${may('see-work-to-come') && html`<${Page} to="/work-to-come" page="coming">${t('nav.work-to-come')}<//>`}
  ${may('see-approvals') && html`<${Page} to="/approvals" page="approvals">${t('nav.approvals')}<//>`}
  ${may('see-book') && html`<${Page} to="/book" page="book">${t('nav.book')}<//>`}
  ${may('see-tools') && html`<${Page} to="/tools" page="tools">${t('nav.tools')}<//>`}
`;

const Pages = () => html`<nav class="masthead__pages" aria-label=${t('nav.label')}><${Main} /><${Others} /><${New} /></nav>`;

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

const Firm = () => html`<div class="masthead__firm"><b>${session.value?.firm?.name ?? ''}</b><span>${t('masthead.desk')}</span></div>`;

const Switch = () => isDealer.value && may('see-prices') && html`<${PriceSwitch} />`;

const Named = () => html`${person.value.display_name}${person.value.dealer_name && html`<small>${person.value.dealer_name}</small>`}`;

/** One's own name leads to one's own password. */
const Name = ({ extra = '' }) => {
  if (!person.value) return null;
  const classes = `masthead__name ${extra}`;
  return firstPassword.value || extra ? html`<span class=${classes}><${Named} /></span>` : html`<${Link} to="/password" class=${classes} title=${t('password.title')}><${Named} /><//>`;
};

const Who = () => html`<div class="masthead__who">
  <${Languages} />
  <${Name} />
  ${person.value && html`<button class="plain" onClick=${leave}>${t('session.leave')}</button>`}
</div>`;

const Folded = () => {
  const open = useSignal(false);
  const away = (event) => event.target.closest('a') && (open.value = false);
  return html`<${Firm} /><button class="button masthead__more" aria-expanded=${open.value} aria-controls="more" onClick=${() => (open.value = !open.value)}>${t('nav.more')}</button>
    ${!open.value && html`<${Name} extra="unseen" />`}
    ${open.value && html`<div class="masthead__folded" id="more" onClick=${away}><nav aria-label=${t('nav.label-more')}><${Others} /></nav><${Who} /></div>`}
    <nav class="masthead__pages" aria-label=${t('nav.label')}><${Main} /><${New} /></nav><${Switch} />`;
};

const Spread = () => html`<${Firm} />${person.value && !firstPassword.value && html`<${Pages} />`}${!firstPassword.value && html`<${Switch} />`}<${Who} />`;

export const Masthead = () => html`<header class="masthead">${narrow.value && person.value && !firstPassword.value ? html`<${Folded} />` : html`<${Spread} />`}</header>`;
