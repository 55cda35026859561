// One customer's part by its tag, from arrival to return: taken in, photographed, inspected; where it failed, what is done now.
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { may } from '../state/session.js';
import { useReading } from '../state/reading.js';
import { Arrival } from '../components/customers-part/arrival.js';
import { StaysHis, TakeIn } from '../components/customers-part/forms.js';
import { Inspect } from '../components/customers-part/inspect.js';
import { PartStanding, neededBy } from '../components/customers-part/part-row.js';
import { AddPictures } from '../components/customers-part/photographs.js';
import { WaysOn } from '../components/customers-part/ways-on.js';
import { Fact } from '../components/fact/fact.js';
import { Link } from '../components/link/link.js';
import { Missing } from './not-found.js';

const Head = ({ part }) => html`<dl class="cells cells--issued receipt__head">
  <${Fact} label=${t('receipt.tag')} large=${true}>${part.tag}<//><${Fact} label=${t('receipt.part')}><b>${part.rule}</b> ${say(part.part)}<//>
  <${Fact} label=${t('receipt.shell')}>${part.shell ? html`${t('receipt.shell-of', { shell: part.shell })} ${part.serial ?? t(part.needed ? 'order.no-serial' : 'order.never-serial')}<br /><span class="quiet">${say(part.name)}</span>` : t('receipt.no-shell')}<//>
  <${Fact} label=${t('receipt.order')}>${may('read-orders') ? html`<${Link} to=${`/orders/${part.order}`}>${part.order}<//>` : part.order}<//>
  <${Fact} label=${t('cell.state')}><${PartStanding} part=${part} /><//><${Fact} label=${t('receipt.needed')}>${neededBy(part)}<//></dl>`;

const Doubt = ({ part }) => part.doubt.length > 0 && html`<p class="payment__says" role="note">${t('receipt.doubt', { shells: part.doubt.join(', '), shell: part.shell })}</p>`;

const Limits = ({ part }) => part.limits.length > 0 && html`<section class="card" aria-labelledby="limits-title"><h2 id="limits-title">${t('receipt.limits')}</h2><ul>${part.limits.map(({ says }) => html`<li key=${says}>${says}</li>`)}</ul></section>`;

const Here = ({ part, last, onPart }) => {
  const gone = last.acts.some(({ act }) => act === 'returned');
  return html`<section class="card" aria-labelledby="here-title"><h2 id="here-title">${t('receipt.here')}</h2><${Arrival} arrival=${last} limits=${part.limits} turn=${part.arrivals.length} />
    ${may('take-in-parts') && !gone && html`<h3>${t('receipt.pictures')}</h3><${AddPictures} part=${part} onPart=${onPart} />`}
    ${may('sign-parts') && !gone && (last.stands === 'arrived' ? html`<h3>${t('receipt.inspect')}</h3><${Inspect} part=${part} onPart=${onPart} />` : html`<details class="receipt__again"><summary>${t('receipt.inspect-again')}</summary><${Inspect} key=${last.verdicts.length} part=${part} onPart=${onPart} /></details>`)}</section>`;
};

export const PartPage = ({ quotation, shell, rule }) => {
  const { body, problem } = useReading(`/api/parts/${quotation}/${shell}/${rule}`);
  const part = body.value;
  if (problem.value || !part) return html`<${Missing} problem=${problem.value} />`;
  const take = (after) => (body.value = after);
  const last = part.arrivals.at(-1);
  const failed = part.stands === 'failed';
  const his = part.arrivals.some((one) => (one.stands === 'failed' || !part.needed) && !one.acts.some(({ act }) => act === 'returned'));
  return html`<div class="work floor receipt"><h1 class="unseen">${t('receipt.heading', { tag: part.tag })}</h1><${Head} part=${part} /><${Doubt} part=${part} />
    ${last ? html`<${Here} part=${part} last=${last} onPart=${take} />` : html`<${Limits} part=${part} />`}
    ${failed && may('settle-parts') && part.needed && html`<${WaysOn} part=${part} onPart=${take} />`}
    ${his && may('keep-parts') && html`<${StaysHis} part=${part} onPart=${take} />`}
    ${(!last || failed) && part.needed && may('take-in-parts') && html`<section class="card" aria-labelledby="take-in-title"><h2 id="take-in-title">${t(last ? 'receipt.second-came' : 'receipt.arrives')}</h2><${TakeIn} key=${part.arrivals.length} part=${part} onPart=${take} /></section>`}
    ${part.arrivals.length > 1 && html`<section class="card" aria-labelledby="earlier-title"><h2 id="earlier-title">${t('receipt.earlier')}</h2>${part.arrivals.slice(0, -1).map((one, at) => html`<${Arrival} key=${at} arrival=${one} limits=${part.limits} turn=${at + 1} />`)}</section>`}
    <p><${Link} to="/parts">${t('receipt.all')}<//></p></div>`;
};
