// How things stand about what somebody entered, as {key, text}: the keys are compared, the texts are read beside what he entered.
import { t, say } from './language.js';
import { day, dayAndTime } from '../format.js';

const asked = ({ id, standing, says, answered_by_name: by, reason }) => ({
  key: `concession ${id} ${standing}`,
  text: [`${says}: ${t(`unsent.concession-${standing}`, { by })}`, reason].filter(Boolean).join(' '),
});

const mended = ({ id, standing, says, what }) => ({ key: `rework ${id} ${standing}`, text: `${says}: ${t(`rework.${standing}`)}. ${what}` });

const welded = ({ zone, label, signed }) =>
  signed.map((one) => ({ key: `weld ${zone} ${one.welder} ${one.day}`, text: `${say(label)}: ${t('zones.signed', { by: one.welder_name, day: day(one.day) })}` }));

const done = ({ deed, stage, at, by_name: by }) => ({ key: `deed ${deed} ${stage} ${at}`, text: `${t(`unsent.deed-${deed}`)} (${by}, ${dayAndTime(at)})` });

/** Of the shell's own record: its subject's concessions and rework, its zones' welders, and, of what is done to the shell, its deeds. */
export const recordStands = (shell, { subject, zones = [] }) => [
  ...shell.concessions.filter((one) => one.subject === subject).map(asked),
  ...shell.reworks.filter((one) => one.subject === subject).map(mended),
  ...shell.zones.filter(({ zone }) => zones.includes(zone)).flatMap(welded),
  ...(subject ? [] : shell.deeds.filter(({ deed }) => ['held', 'went-on', 'rejected', 'cancelled', 'done', 'begun'].includes(deed)).map(done)),
];

const read = ({ value, at, by_name: by }) => ({ key: `reading ${value} ${at}`, text: t('unsent.read', { value, by, at: dayAndTime(at) }) });

/** Of an inspection: every reading of that subject, and what was conceded or is to be mended of what it is about. */
export const readingStands = (inspection, { subject }) => {
  const looked = inspection.subjects.find(({ id }) => id === subject);
  if (!looked) return [];
  const readings = [looked.reading, looked.void, ...looked.earlier].filter(Boolean);
  return [...readings.map(read), ...recordStands({ ...inspection, zones: [], deeds: [] }, { subject: looked.about })];
};
