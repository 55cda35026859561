// Every file of words in German: a new one is a line here, and one in english.js.
export { de } from '../words/de.js';
export { changesDe } from '../words/changes.de.js';
export { dealersDe } from '../words/dealers.de.js';
export { draftingDe } from '../words/drafting.de.js';
export { feedsDe } from '../words/feeds.de.js';
export { floorDe } from '../words/floor.de.js';
export { peopleDe } from '../words/people.de.js';
export { recordDe } from '../words/record.de.js';
export { sheetsDe } from '../words/sheets.de.js';
export { safetyDe } from '../words/safety.de.js';
export { stockDe } from '../words/stock.de.js';
export { unsentDe } from '../words/unsent.de.js';
export { watchingDe } from '../words/watching.de.js';
export { weeksDe } from '../words/weeks.de.js';
export { wordingsDe } from '../words/wordings.de.js';
export { workshopDe } from '../words/workshop.de.js';
