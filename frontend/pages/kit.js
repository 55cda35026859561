// The kit of one shell, checked line by line before its release: present, short, or a substitute that somebody approved.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { may } from '../state/session.js';
import { day } from '../format.js';
import { errorOf, useSending } from '../state/sending.js';
import { useReading } from '../state/reading.js';
import { PartRow } from '../components/customers-part/part-row.js';
import { SelectField, TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';
import { Missing } from './not-found.js';

const STANDS = ['present', 'short', 'substitute'];
const SUPPLIES = ['pressing', 'sub-assembly', 'jig'];

const Substitute = ({ line, approvers, onSay, problem, onLeave }) => {
  const [what, by] = [useSignal(line.what), useSignal('')];
  const press = (event) => {
    event.preventDefault();
    onSay({ stands: 'substitute', what: what.value, approved_by: by.value || null });
  };
  return html`<form class="floor-form kit__substitute" onSubmit=${press}>
    <${TextField} label=${t('kit.what')} required maxlength="200" autocomplete="off" error=${errorOf(problem, 'what')} value=${what.value} onWrite=${(text) => (what.value = text)} />
    <${SelectField} label=${t('kit.approved-by')} error=${errorOf(problem, 'approved_by')} options=${[['', '–'], ...approvers.map((one) => [one.name, one.display_name])]} value=${by.value} onWrite=${(name) => (by.value = name)} />
    <button class="button button--heavy">${t('kit.substitute-now')}</button><button type="button" class="button" onClick=${onLeave}>${t('floor.leave')}</button></form>`;
};

const said = (line) => [line.stands === 'substitute' && t('kit.is-substitute', { what: line.what, by: line.approved_by_name }), line.stands === 'short' && line.what, line.by_name && t('kit.by', { by: line.by_name, day: day(line.at) })].filter(Boolean).join(' · ');

const Line = ({ shell, line, approvers, open, onKit }) => {
  const asks = useSignal(false);
  const { send, problem, busy } = useSending();
  const tell = async (body) => {
    const after = await send(`/api/shells/${shell}/kit`, { line: line.line, ...body });
    if (!after) return;
    asks.value = false;
    onKit(after);
  };
  const press = (stands) => () => (stands === 'substitute' ? (asks.value = !asks.value) : tell({ stands }));
  return html`<li class=${`kit__line kit__line--${line.stands ?? 'open'}`}><div><b>${say(line.label)}</b>${line.stands && html`<br /><small>${t(`kit.stands.${line.stands}`)}. ${said(line)}</small>`}</div>
    ${open && may('check-kits') && html`<div class="kit__stands" role="group" aria-label=${say(line.label)}>${STANDS.map((stands) => html`<button key=${stands} class="button" aria-pressed=${line.stands === stands} disabled=${busy.value} onClick=${press(stands)}>${t(`kit.stands.${stands}`)}</button>`)}</div>`}
    ${asks.value && html`<${Substitute} line=${line} approvers=${approvers} onSay=${tell} problem=${problem} onLeave=${() => (asks.value = false)} />`}
    ${problem.value && !problem.value.errors && html`<${Notice} problem=${problem.value} />`}</li>`;
};

const Parts = ({ parts }) => parts.length > 0 && html`<section class="card" aria-labelledby="kit-parts"><h2 id="kit-parts">${t('receipt.title')}</h2><p class="quiet">${t('kit.parts-lead')}</p>
  <ul class="receipt-rows">${parts.map((part) => html`<${PartRow} key=${part.tag} part=${{ ...part, needed: true }} />`)}</ul></section>`;

const Supply = ({ supply, kit, onKit }) => {
  const lines = kit.lines.filter((line) => line.supply === supply);
  return lines.length > 0 && html`<section class="card" aria-labelledby=${`kit-${supply}`}><h2 id=${`kit-${supply}`}>${t(`kit.supply.${supply}`)}</h2>
    <ul class="kit__lines">${lines.map((line) => html`<${Line} key=${line.line} shell=${kit.shell.id} line=${line} approvers=${kit.approvers} open=${kit.open} onKit=${onKit} />`)}</ul></section>`;
};

const Ends = ({ kit, onKit, onReleased }) => {
  const { send, problem, busy } = useSending();
  const { shell } = kit;
  const rest = async () => {
    const after = await send(`/api/shells/${shell.id}/kit/rest`);
    if (after) onKit(after);
  };
  const release = async () => (await send(`/api/shells/${shell.id}/release`)) && onReleased();
  return html`<div class="floor-acts">${shell.unchecked > 0 && may('check-kits') && html`<button class="button" disabled=${busy.value} onClick=${rest}>${t('kit.rest', { count: shell.unchecked })}</button>`}
    ${!shell.unchecked && !shell.stops.length && shell.may.includes('released') && may('release-shells') && html`<button class="button button--heavy" disabled=${busy.value} onClick=${release}>${t('floor.release')}</button>`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}</div>`;
};

const Stops = ({ shell }) => (shell.stops.length > 0 || shell.unchecked > 0) && html`<div class="floor-stop" role="status"><b>${t('kit.not-yet')}</b><ul>${shell.unchecked > 0 && html`<li>${t('kit.open-lines', { count: shell.unchecked })}</li>`}${shell.stops.map((stop) => html`<li key=${stop.what + stop.of}>${stop.says}</li>`)}</ul></div>`;

export const KitPage = ({ shell }) => {
  const { body, problem, again } = useReading(`/api/shells/${shell}/kit`);
  const kit = body.value;
  if (problem.value || !kit) return html`<${Missing} problem=${problem.value} />`;
  const take = (after) => (body.value = after);
  return html`<div class="work floor kit"><h1>${t('kit.title')}</h1><p><b>${say(kit.shell.name)}</b><br /><span class="quiet">${t('floor.which', { order: kit.shell.order, shell: kit.shell.shell, of: kit.shell.of })} · ${kit.shell.serial ?? t('order.no-serial')}</span></p>
    ${kit.open ? html`<${Stops} shell=${kit.shell} /><${Ends} kit=${kit} onKit=${take} onReleased=${again} />` : html`<p class="payment__says" role="status">${t('kit.released', { serial: kit.shell.serial })}</p>`}
    <${Parts} parts=${kit.parts} />${SUPPLIES.map((supply) => html`<${Supply} key=${supply} supply=${supply} kit=${kit} onKit=${take} />`)}
    <p><${Link} to="/floor" class="button">${t('kit.to-floor')}<//></p></div>`;
};
