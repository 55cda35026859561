// A refusal as it is read out, and what can be built instead. The sentences come whole from the server.
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { useAdvice } from '../../state/advice.js';
import { Causes, Depends, anyDepends } from '../reasons/reasons.js';
import { Notice } from '../notice/notice.js';
import { Live } from '../live/live.js';
import { Offer, KeepRow } from './offer.js';

const Reason = ({ reason }) => html`<li class="refusal__reason">${reason.sentence} ${reason.rules.map(({ id }) => html`<b key=${id} class="reason__id">${id}</b>`)}</li>`;

/** `said`: what /api/reasons answered; until it is there, or where it can't be had, the rules' own reasons stand. */
export const RefusalText = ({ said, causes, capped, brief = false }) => {
  if (!said?.body) return html`<${Causes} causes=${causes} capped=${capped} />`;
  const { sentence, reasons, capped: more } = said.body;
  return html`${!brief && html`<p class="refusal__lead">${sentence}</p>`}
    <ul class="refusal">${reasons.map((reason, at) => html`<${Reason} key=${at} reason=${reason} />`)}${more && html`<li key="more">${t('cause.more')}</li>`}</ul>`;
};

export const useReasons = (job, wish, wanted = true) => useAdvice('/api/reasons', job, wanted ? { wish } : null);

const Offers = ({ job, said, wish }) => {
  if (!said) return html`<p class="quiet">${t('advice.looking')}</p>`;
  if (said.problem) return said.status === 404 || said.status === 405 ? null : html`<${Notice} problem=${said.problem} />`;
  if (!said.body) return html`<p class="quiet">${t('away.title')}</p>`;
  const { alternatives, keep } = said.body;
  const currency = job.answer.value?.currency;
  return html`
    <h4>${t('advice.offers')}</h4>
    ${alternatives.length ? html`<ol class="offers">${alternatives.map((one, at) => html`<${Offer} key=${at} job=${job} one=${one} at=${at} currency=${currency} />`)}</ol>` : html`<p class="quiet">${t('advice.none')}</p>`}
    ${wish && keep.length > 0 && html`<h4>${t('advice.keep')}</h4><ul class="keeps">${keep.map((one, at) => html`<${KeepRow} key=${at} job=${job} one=${one} wish=${wish} currency=${currency} />`)}</ul>`}`;
};

const spoken = (reasons, offers) =>
  [reasons?.body?.sentence, ...(reasons?.body?.reasons ?? []).map(({ sentence }) => sentence), ...(offers?.body?.alternatives ?? []).map(({ sentence }) => sentence)].filter(Boolean).join(' ');

/** Why the wish, or without one the answers, can't be built, and the nearest that can. */
export const Refused = ({ job, wish, causes, capped }) => {
  const reasons = useReasons(job, wish);
  const offers = useAdvice('/api/alternatives', job, { wish });
  return html`<${RefusalText} said=${reasons} causes=${causes} capped=${capped} />
    <${Offers} job=${job} said=${offers} wish=${wish} /><${Live} text=${spoken(reasons, offers)} />`;
};

/** What a shell that stands only once … waits for, and the nearest that wait for less. */
export const Waiting = ({ job, depends, wish = null }) => {
  const offers = useAdvice('/api/alternatives', job, { wish });
  return html`${anyDepends(depends) && html`<${Depends} depends=${depends} />`}
    <${Offers} job=${job} said=${offers} wish=${wish} /><${Live} text=${spoken(null, offers)} />`;
};

/** Why a detail stands as it does, in the server's own sentence. */
export const Why = ({ job, option, otherwise }) => {
  const said = useAdvice('/api/whys', job, { option });
  const sentence = said?.body?.sentence ?? otherwise;
  return html`<p class="refusal__lead">${sentence} ${(said?.body?.rules ?? []).map(({ id }) => html`<b key=${id} class="reason__id">${id}</b>`)}</p><${Live} text=${said?.body ? sentence : ''} />`;
};
