// All points of a phase by their sort, each with how it stands: what is still to be read is seen, and picked with one press.
import { html } from '../../html.js';
import { t } from '../../state/language.js';

const groupsOf = (subjects) => subjects.reduce((groups, one) => groups.set(one.says, [...(groups.get(one.says) ?? []), one]), new Map());

const left = (subjects) => subjects.filter(({ mark }) => mark === 'unread').length;

const countText = (subjects) => (left(subjects) ? t('inspect.left-of', { left: left(subjects), of: subjects.length }) : t('inspect.all', { of: subjects.length }));

const Row = ({ one, picked, unsent, onPick }) => html`<li><button type="button" class=${`inspect-row inspect-row--${one.mark}`} aria-current=${picked ? 'true' : undefined} onClick=${() => onPick(one.id)}>
  <span class=${`mark-of mark-of--${unsent ? 'unsent' : one.mark}`}>${t(unsent ? 'inspect.unsent' : one.conceded ? 'inspect.conceded' : `inspect.mark.${one.mark}`)}</span>
  <span>${one.number ? html`<span class="inspect-number">${one.number}</span> ` : ''}${one.label || one.says}</span>
  <span class="inspect-row__value">${unsent ? unsent.value : one.measured}</span><small class="quiet">${one.limit}</small></button></li>`;

const Group = ({ name, subjects, picked, unsent, onPick }) => html`<details class="inspect-group" open=${subjects.some(({ id }) => id === picked)}>
  <summary>${name} <small>${countText(subjects)}</small></summary>
  <ul>${subjects.map((one) => html`<${Row} key=${one.id} one=${one} picked=${one.id === picked} unsent=${unsent.get(one.id)} onPick=${onPick} />`)}</ul></details>`;

/** `unsent`: subject → the reading that is still on this tablet. */
export const Points = ({ subjects, picked, unsent, onPick }) => html`<section class="inspect-points" aria-labelledby="inspect-points"><h2 id="inspect-points">${t('inspect.points')}</h2>
  <div class="inspect-points__window">${[...groupsOf(subjects)].map(([name, of]) => html`<${Group} key=${name} name=${name} subjects=${of} picked=${picked} unsent=${unsent} onPick=${onPick} />`)}</div></section>`;
