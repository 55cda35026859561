// Readings of an inspection, taken down one after the other. What could not be sent waits with all else that is unsent.
import { useRef } from 'preact/hooks';
import { signal, useSignal } from '@preact/signals';
import { freshKey } from '../api.js';
import { t } from './language.js';
import { deskTime } from './session.js';
import { enter, unsent } from './unsent.js';

/** Counts what this page itself delivered, and so need not read again. */
export const taken = signal(0);

const readingOf = (entry) => entry.body.readings[0];

/** Subject → the reading that is still on this tablet. */
const unsentOf = (shell) => new Map(unsent.value.filter((one) => one.kind === 'reading' && one.shell === shell).map((one) => [one.subject, readingOf(one)]));

const entryOf = (one, subject, value, gauge) => ({
  kind: 'reading',
  shell: one.shell,
  serial: one.serial,
  path: `/api/shells/${one.shell}/inspection/readings`,
  body: { readings: [{ key: freshKey(), subject: subject.id, value, unit: subject.unit, gauge, at: deskTime() }] },
  says: t('inspect.says', { what: subject.label ? `${subject.says}: ${subject.label}` : subject.says, value: `${value} ${subject.unit}`.trim() }),
  subject: subject.id,
});

/** `take(subject, value, gauge)`: nobody waits for it; an answer that is older than what stands is passed over. */
export const useTaking = (one, onShell) => {
  const [problem, turns, shown] = [useSignal(null), useRef(0), useRef(0)];
  const take = async (subject, value, gauge) => {
    const turn = (turns.current += 1);
    const came = await enter(entryOf(one, subject, value, gauge), one);
    problem.value = came.problem ?? null;
    if (!came.body) return;
    taken.value += 1;
    if (turn > shown.current) onShell(came.body);
    shown.current = Math.max(turn, shown.current);
  };
  return { unsent: unsentOf(one.shell), take, problem };
};
