// A list that comes page by page: the first for what is asked, further ones joined beneath it as they are called for.
import { useEffect, useRef } from 'preact/hooks';
import { batch, useSignal } from '@preact/signals';
import { get } from '../api.js';
import { sight } from './session.js';
import { problemOf } from './sending.js';

const PAUSE = 200;

/** What was there stays above, and nothing stands there twice, though it moved in the meantime. */
const joined = (before, rows, keyOf) => {
  const known = new Set(before.map(keyOf));
  return [...before, ...rows.filter((row) => !known.has(keyOf(row)))];
};

/**
 * `address`: of the first page, null where nothing is asked; `name`: of the rows in its answer; `keyOf(row)`.
 * `rows` null: not here yet. `more()` says whether they came; `again()` reads anew as many as stand there.
 */
export const usePages = (address, name, keyOf) => {
  const [held, problem, asked, seen] = [useSignal(null), useSignal(null), useRef(null), sight.value];
  const read = async (from, before, signal) => {
    const { body } = await get(from, { signal });
    return { rows: joined(before, body[name], keyOf), next: body.next };
  };
  const ask = async (from, before, atLeast = 0) => {
    asked.current?.abort();
    const { signal } = (asked.current = new AbortController());
    try {
      let found = await read(from, before, signal);
      while (found.next && found.rows.length < atLeast) found = await read(found.next, found.rows, signal);
      batch(() => ((held.value = found), (problem.value = null)));
      return true;
    } catch (error) {
      if (error.name !== 'AbortError' && error.status !== 401) problem.value = problemOf(error);
      return false;
    }
  };
  useEffect(() => {
    if (!address) {
      held.value = null;
      return undefined;
    }
    const timer = setTimeout(() => ask(address, []), held.peek() ? PAUSE : 0);
    return () => {
      clearTimeout(timer);
      asked.current?.abort();
    };
  }, [address, seen]);
  return {
    rows: held.value?.rows ?? null,
    next: held.value?.next ?? null,
    problem: problem.value,
    more: () => ask(held.peek().next, held.peek().rows),
    again: () => ask(address, [], held.peek()?.rows.length),
  };
};
