// What was typed and is not safe at the server yet, kept on this computer under the name of who typed it.
// Nothing else is kept here: once saved, it is removed.

const nameOf = (person, key) => `bodywright.kept.${person}.${key}`;

const tryStorage = (deed) => {
  try {
    return deed();
  } catch {
    return null;
  }
};

export const keep = (person, key, what) => tryStorage(() => localStorage.setItem(nameOf(person, key), JSON.stringify(what)));
export const forget = (person, key) => tryStorage(() => localStorage.removeItem(nameOf(person, key)));
export const recall = (person, key) => tryStorage(() => JSON.parse(localStorage.getItem(nameOf(person, key))));

/** What everybody has kept under that key on this computer: {person, what}. */
export const keptOf = (key) => {
  const [before, after] = nameOf('\n', key).split('\n');
  const own = (name) => name.startsWith(before) && name.endsWith(after);
  const names = tryStorage(() => Object.keys(localStorage)) ?? [];
  return names.filter(own).map((name) => name.slice(before.length, -after.length)).map((person) => ({ person, what: recall(person, key) }));
};

const asidesName = (person) => `bodywright.asides.${person}`;
export const keepAsides = (person, asides) => tryStorage(() => localStorage.setItem(asidesName(person), JSON.stringify(asides)));
export const recallAsides = (person) => tryStorage(() => JSON.parse(localStorage.getItem(asidesName(person)))) ?? [];
