// Starts the page: finds out who is signed in, then draws. Must hold no rule of any page.
import { render } from 'preact';
import { html } from './html.js';
import { findSession } from './state/session.js';
import { followLanguage } from './state/language.js';
import { followAddress } from './state/route.js';
import { followCountries } from './state/countries.js';
import { followUnsent } from './state/unsent.js';
import { Desk } from './pages/desk-frame.js';

followLanguage();
followAddress();
followCountries();
followUnsent();
render(html`<${Desk} />`, document.getElementById('desk'));
findSession();
