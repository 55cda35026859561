// One change note: what it says, how it stands, its papers, and what may be said to it: approved, signed, given up.
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t, say } from '../../state/language.js';
import { may, pricesShown, today } from '../../state/session.js';
import { SHEETS, day, dayAndTime } from '../../format.js';
import { errorOf, useSending } from '../../state/sending.js';
import { TextField, TickField } from '../field/field.js';
import { Folded } from '../folded/folded.js';
import { Moves } from '../moves/moves.js';
import { Notice } from '../notice/notice.js';
import { PaperLink } from '../papers/paper-link.js';
import { Told } from '../weighed-change/weighed-change.js';

const Papers = ({ papers }) => html`<ul class="papers">${papers.map((paper) => html`<${PaperLink} key=${paper.url} href=${paper.url} own=${paper.own} name=${t('shell-change.paper')}>${t(`language.${paper.language}`)}, ${SHEETS[paper.size]}<//>`)}</ul>`;

const Why = ({ note, deed, label, onShell, onDone }) => {
  const why = useSignal('');
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/change-notes/${note.number}/${deed}`, { why: why.value });
    if (after) (onDone(), onShell(after));
  };
  return html`<form class="money-form" onSubmit=${press}><${TextField} class="field--wide" label=${t('shell-change.why-said')} required autocomplete="off" error=${errorOf(problem, 'why')} value=${why.value} onWrite=${(text) => (why.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${label}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

/** Dates that move are read out first: the tick says that the customer was told. */
const Sign = ({ note, onShell, onDone }) => {
  const [who, on, told] = [useSignal(''), useSignal(today()), useSignal(false)];
  const { send, problem, busy } = useSending();
  const press = async (event) => {
    event.preventDefault();
    const after = await send(`/api/change-notes/${note.number}/signature`, { who: who.value, day: on.value, agreed: note.move?.token ?? '' });
    if (after) (onDone(), onShell(after));
  };
  return html`<form class="money-form" onSubmit=${press}>${note.move && html`<div class="field--wide"><${Moves} proposal=${note.move}><${TickField} label=${t('shell-change.moves-agreed')} required value=${told.value} onWrite=${(ticked) => (told.value = ticked)} /><//></div>`}
    <${TextField} label=${t('shell-change.sign-who')} required autocomplete="off" error=${errorOf(problem, 'who')} value=${who.value} onWrite=${(text) => (who.value = text)} />
    <${TextField} label=${t('shell-change.sign-day')} type="date" required error=${errorOf(problem, 'day')} value=${on.value} onWrite=${(text) => (on.value = text)} />
    <button class="button button--heavy" disabled=${busy.value}>${t('shell-change.sign')}</button>${problem.value && html`<${Notice} problem=${problem.value} />`}</form>`;
};

const Acts = ({ note, onShell }) => {
  const said = (deed, label) => html`<${Folded} label=${label}>${(close) => html`<${Why} note=${note} deed=${deed} label=${label} onShell=${onShell} onDone=${close} />`}<//>`;
  return html`<div class="acts">
    ${note.state === 'waits-for-signature' && note.holds && may('sign-changes') && html`<${Folded} label=${t('shell-change.sign')} heavy=${true}>${(close) => html`<${Sign} note=${note} onShell=${onShell} onDone=${close} />`}<//>`}
    ${note.state === 'waits-for-approval' && may('approve-changes') && html`${said('approval', t('shell-change.approve'))}${said('refusal', t('shell-change.refuse'))}`}
    ${may('draw-changes') && said('withdrawal', t('shell-change.withdraw'))}</div>`;
};

const actText = (act) => (act.said === 'signed' ? t('shell-change.signed', { who: act.who, day: day(act.day), by: act.by_name }) : `${t(`shell-change.said.${act.said}`, { by: act.by_name, day: day(act.day) })} ${act.why}`);

const isOpen = ({ state }) => state.startsWith('waits');

export const ChangeNote = ({ note, order, onShell }) => html`<li class=${`card change-note change-note--${note.state}`}><h3>${note.number} <span class="standing">${t(`shell-change.state.${note.state}`)}</span></h3>
  <p class="quiet">${dayAndTime(note.at)}, ${note.by_name}${note.stage ? ` · ${say(note.stage)}` : ''}</p><p>${note.why}</p><${Told} told=${note} order=${order} />
  ${note.acts.map((act) => html`<p key=${act.said} class="change-note__act">${actText(act)}</p>`)}
  ${isOpen(note) && !note.holds && html`<p class="payment__says" role="status">${t('shell-change.holds-not')}</p>`}
  ${pricesShown.value && html`<${Papers} papers=${note.papers} />`}${isOpen(note) && html`<${Acts} note=${note} onShell=${onShell} />`}</li>`;
