// A refusal as it is read out, and what can be built instead. The sentences come whole from the server.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { useAdvice } from '../../state/advice.js';
import { Causes, Depends, Ids, anyDepends } from '../reasons/reasons.js';
import { Notice } from '../notice/notice.js';
import { Live } from '../live/live.js';
import { Offer, KeepRow } from './offer.js';

const Reason = ({ reason }) => html`<li class="refusal__reason">${reason.sentence} <${Ids} rules=${reason.rules} /></li>`;

/** `said`: what /api/reasons answered; until it is there, or where it can't be had, the rules' own reasons stand. */
export const RefusalText = ({ said, causes, capped, brief = false }) => {
  if (!said?.body) return html`<${Causes} causes=${causes} capped=${capped} />`;
  const { sentence, reasons, capped: more } = said.body;
  return html`${!brief && html`<p class="refusal__lead">${sentence}</p>`}
    <ul class="refusal">${reasons.map((reason, at) => html`<${Reason} key=${at} reason=${reason} />`)}${more && html`<li key="more">${t('cause.more')}</li>`}</ul>`;
};

export const useReasons = (job, wish, wanted = true) => useAdvice('/api/reasons', job, wanted ? { wish } : null);

/** Of what only fills a place: neither cheaper nor less work than what it adds changes to, so not worth reading out. */
const gainsNothing = (one, { alternatives }) =>
  one.also_changes.some(({ beside }) => {
    const other = alternatives[beside];
    return other.fills || ((one.price?.net ?? 0) >= (other.price?.net ?? 0) && one.days_difference >= other.days_difference);
  });

/** As many of the other values of the one option as fit among the cards; more than these stand in rows of their own. */
const CARDS = 3;

const laidOut = (body) => {
  const nearest = body.alternatives.filter(({ fills }) => !fills);
  const keep = body.keep.length <= CARDS - 1 ? body.keep : [];
  const fill = body.alternatives.filter((one) => one.fills && !gainsNothing(one, body)).slice(0, Math.max(0, CARDS - nearest.length - keep.length));
  return { cards: [...nearest, ...keep, ...fill], rows: keep.length ? [] : body.keep };
};

/** The nearest keep their places, for the sentences name them by number. */
const Offers = ({ job, said, wish }) => {
  if (!said) return html`<p class="quiet">${t('advice.looking')}</p>`;
  if (said.problem) return said.status === 404 || said.status === 405 ? null : html`<${Notice} problem=${said.problem} />`;
  if (!said.body) return html`<p class="quiet">${t('away.title')}</p>`;
  const { held, alternatives, sentence } = said.body;
  const { cards, rows } = laidOut(said.body);
  const currency = job.answer.value?.currency;
  return html`
    <h4>${t('advice.offers')}</h4>
    ${!alternatives.length && html`<p>${sentence}</p>`}
    ${cards.length > 0 && html`<ol class="offers">${cards.map((one, at) => html`<${Offer} key=${at} job=${job} one=${one} at=${at} held=${held} currency=${currency} />`)}</ol>`}
    ${rows.length > 0 && html`<h4>${t('advice.keep')}</h4><ul class="keeps">${rows.map((one, at) => html`<${KeepRow} key=${at} job=${job} one=${one} wish=${wish} held=${held} currency=${currency} />`)}</ul>`}
    ${cards.length + rows.length > 0 && html`<p class="quiet">${t('advice.days-mean')}</p>`}`;
};

const told = (body) => (!body ? [] : body.alternatives.length ? laidOut(body).cards.map(({ sentence }) => sentence) : [body.sentence]);

const spoken = (reasons, offers) =>
  [reasons?.body?.sentence, ...(reasons?.body?.reasons ?? []).map(({ sentence }) => sentence), ...told(offers?.body)].filter(Boolean).join(' ');

/** Why the wish, or without one the answers, can't be built, and the nearest that can. */
export const Refused = ({ job, wish, causes, capped }) => {
  const reasons = useReasons(job, wish);
  const offers = useAdvice('/api/alternatives', job, { wish });
  return html`<${RefusalText} said=${reasons} causes=${causes} capped=${capped} />
    <${Offers} job=${job} said=${offers} wish=${wish} /><${Live} text=${spoken(reasons, offers)} />`;
};

/** What a shell that stands only once … waits for, and the nearest that wait for less. */
export const Waiting = ({ job, depends, down, wish = null }) => {
  const offers = useAdvice('/api/alternatives', job, { wish });
  return html`${anyDepends(depends) && html`<${Depends} depends=${depends} down=${down} />`}
    <${Offers} job=${job} said=${offers} wish=${wish} /><${Live} text=${spoken(null, offers)} />`;
};

/** Why a detail stands as it does, in the server's own sentence. */
export const Why = ({ job, option, otherwise }) => {
  const said = useAdvice('/api/whys', job, { option });
  const sentence = said?.body?.sentence ?? otherwise;
  return html`<p class="refusal__lead">${sentence} <${Ids} rules=${said?.body?.rules ?? []} /></p><${Live} text=${said?.body ? sentence : ''} />`;
};
