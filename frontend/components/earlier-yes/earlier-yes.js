// An earlier revision was accepted. It holds until a later one is issued, and that never happens by accident.
import { signal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { day } from '../../format.js';
import { TickField } from '../field/field.js';

export const yesText = ({ letter, at, by }) => t('yes.was', { letter, day: day(at), by: by || '–' });
export const shortYesText = ({ letter, at }) => t('yes.was-short', { letter, day: day(at) });

const saidOf = (job) => (job.replacesYes ??= signal(false));

/** What issuing sends: that it takes the place of the yes, where somebody said so. */
export const replacing = (job) => (saidOf(job).value ? { replaces_yes: true } : {});

/** Above the button that issues: what stands, and the one tick that lets it be replaced. */
export const YesStands = ({ job }) => {
  const { revision } = job.server.value;
  const yes = revision?.earlier_yes;
  if (!yes?.stands) return null;
  const said = saidOf(job);
  return html`<div class="yes-stands"><p><b>${yesText(yes)}</b> ${t('yes.holds', { letter: revision.letter })}</p>
    <${TickField} label=${t('yes.replace', { letter: revision.letter, accepted: yes.letter })} value=${said.value} onWrite=${(value) => (said.value = value)} /></div>`;
};

/** On the sheet of what is out: the yes whose place it took. */
export const EarlierYes = ({ revision }) =>
  revision.earlier_yes && !revision.earlier_yes.stands && html`<p class="yes-before">${yesText(revision.earlier_yes)} ${t('yes.replaced', { letter: revision.letter })}</p>`;
