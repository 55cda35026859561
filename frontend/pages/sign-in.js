// The first page: name and password, and nothing about what there is to see.
import { html } from '../html.js';
import { t } from '../state/language.js';
import { Masthead } from '../components/masthead/masthead.js';
import { SignInCard } from '../components/sign-in-card/sign-in-card.js';

export const SignIn = () => html`<${Masthead} />
  <main id="content" class="first-page">
    <${SignInCard} lead=${html`<h1>${t('sign-in.title')}</h1><p>${t('sign-in.lead')}</p>`} />
  </main>`;
