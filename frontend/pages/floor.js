// The floor: shells of confirmed orders by stage, what is stopped and why, release, stages signed. Nothing here knows money.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t, say } from '../state/language.js';
import { may } from '../state/session.js';
import { put } from '../api.js';
import { problemOf } from '../state/sending.js';
import { delivered } from '../state/unsent.js';
import { useFresh } from '../state/fresh.js';
import { useReading } from '../state/reading.js';
import { useSteady } from '../state/steady.js';
import { AsOf } from '../components/as-of/as-of.js';
import { TextField } from '../components/field/field.js';
import { FloorToday, placeId } from '../components/floor-today/floor-today.js';
import { Link } from '../components/link/link.js';
import { FloorShell } from '../components/floor-shell/floor-shell.js';
import { SafetyStands } from '../components/safety/safety-link.js';
import { Notice } from '../components/notice/notice.js';

/** Something is being entered of that shell: it stays as it was shown, and what came meanwhile is told when that is sent. */
const inHand = (shell) => {
  const card = document.getElementById(placeId(shell));
  const standing = [...(card?.querySelectorAll('.floor-form--standing :is(input, textarea)') ?? [])];
  return Boolean(card?.querySelector('.floor-form:not(.floor-form--standing)')) || standing.some((one) => one.value || one === document.activeElement);
};

/** All as it stands now, but for what is in hand. */
const keepingInHand = (now, before) => {
  const kept = new Map(before.shells.filter(inHand).map((shell) => [shell.id, shell]));
  const gone = [...kept.values()].filter(({ id }) => now.shells.every((one) => one.id !== id));
  return { ...now, shells: [...now.shells.map((one) => kept.get(one.id) ?? one), ...gone] };
};

const OVER = ['cancelled', 'despatched'];

/** Not released yet: it is planned, or on hold for a customer's part that failed. */
const waits = ({ state, stage }) => state === 'planned' || (state === 'on-hold' && stage === null);

/** Sections in the order of the route: to be released, each stage with what is there, ready, rejected. */
const sections = (shells) => {
  const live = shells.filter(({ state }) => !OVER.includes(state));
  const stages = new Map(live.flatMap(({ route }) => route.filter(({ work }) => work !== 'none')).map((one) => [one.stage, one]));
  const order = [...stages.keys()].sort((one, other) => placeOf(live, one) - placeOf(live, other));
  const at = (stage) => live.filter((shell) => shell.state !== 'rejected' && shell.stage === stage);
  return [
    { id: 'to-release', title: t('floor.to-release'), shells: live.filter(waits) },
    ...order.map((stage) => ({ id: stage, title: say(stages.get(stage).label), bays: stages.get(stage).bays, shells: at(stage) })),
    { id: 'ready', title: t('floor.ready'), shells: live.filter(({ state }) => state === 'ready') },
    { id: 'rejected', title: t('floor.over'), shells: live.filter(({ state }) => state === 'rejected') },
  ].filter((one) => one.shells.length);
};

const placeOf = (shells, stage) => Math.max(...shells.map(({ route }) => route.findIndex((one) => one.stage === stage)));

const countText = ({ shells, bays }) => (bays ? t('floor.bays', { count: shells.length, bays }) : t('floor.count', { count: shells.length }));

const Section = ({ section, names, signers, onShell }) => html`<section class="floor-stage" aria-labelledby=${`stage-${section.id}`}>
  <h2 id=${`stage-${section.id}`} tabindex="-1">${section.title} <small>${countText(section)}</small></h2>
  <ul class="floor-shells">${section.shells.map((shell) => html`<${FloorShell} key=${shell.id} shell=${shell} names=${names} signers=${signers} onShell=${onShell} />`)}</ul></section>`;

const Stages = ({ shells, names, signers, onShell }) => {
  const found = sections(shells);
  if (!found.length) return html`<p class="quiet">${t('floor.none')}</p>`;
  return html`<${FloorToday} sections=${found} countText=${countText} />${found.map((one) => html`<${Section} key=${one.id} section=${one} names=${names} signers=${signers} onShell=${onShell} />`)}`;
};

const Code = ({ signer, onSigners }) => {
  const [code, problem] = [useSignal(''), useSignal(null)];
  const press = async (event) => {
    event.preventDefault();
    await put(`/api/signers/${signer.name}/code`, { code: code.value }).then(({ body }) => ((problem.value = null), (code.value = ''), onSigners(body.signers)), (error) => (problem.value = problemOf(error)));
  };
  return html`<form class="tolerance" onSubmit=${press}><span><b>${signer.display_name}</b><br /><small class="quiet">${t(signer.has_code ? 'codes.has' : 'codes.has-none')}</small></span>
    <${TextField} label=${t('codes.code')} type="password" inputmode="numeric" autocomplete="new-password" required maxlength="8" error=${problem.value?.errors?.code?.[0]} value=${code.value} onWrite=${(text) => (code.value = text)} />
    <button class="button" aria-label=${`${t('codes.set')}: ${signer.display_name}`}>${t('codes.set')}</button>${problem.value && !problem.value.errors?.code && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Codes = ({ signers, onSigners }) => html`<details class="card floor-codes"><summary>${t('codes.title')}</summary><p class="quiet">${t('codes.lead')} ${t('codes.hint')}</p>
  ${signers.map((signer) => html`<${Code} key=${signer.name} signer=${signer} onSigners=${onSigners} />`)}</details>`;

export const Floor = () => {
  const { body, problem, again } = useReading('/api/floor', delivered.value);
  const { body: told } = useReading('/api/signers');
  const before = useSteady('.floor-shell', body.value);
  const asOf = useFresh('/api/floor', body, { join: keepingInHand, before });
  const signers = told.value?.signers ?? [];
  /** Shown as it stands now, before the whole floor is read again. */
  const take = (after) => {
    body.value = { ...body.value, shells: body.value.shells.map((one) => (one.id === after.id ? after : one)) };
    again();
  };
  return html`<div class="work floor"><h1>${t('floor.title')}</h1><p class="quiet">${t('floor.lead')}</p><${AsOf} at=${asOf} /><${SafetyStands} /><p><${Link} to="/parts" class="button">${t('receipt.title')}<//></p>
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${body.value && html`<${Stages} shells=${body.value.shells} names=${body.value.subjects} signers=${signers.filter(({ has_code: has }) => has)} onShell=${take} />
      ${may('set-codes') && html`<${Codes} signers=${signers} onSigners=${(after) => (told.value = { signers: after })} />`}`}</div>`;
};
