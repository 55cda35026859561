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

const asidesName = (person) => `bodywright.asides.${person}`;
export const keepAsides = (person, asides) => tryStorage(() => localStorage.setItem(asidesName(person), JSON.stringify(asides)));
export const recallAsides = (person) => tryStorage(() => JSON.parse(localStorage.getItem(asidesName(person)))) ?? [];
