// Every file of words in English: a new one is a line here, and one in german.js.
export { en } from '../words/en.js';
export { changesEn } from '../words/changes.en.js';
export { dealersEn } from '../words/dealers.en.js';
export { draftingEn } from '../words/drafting.en.js';
export { feedsEn } from '../words/feeds.en.js';
export { floorEn } from '../words/floor.en.js';
export { peopleEn } from '../words/people.en.js';
export { recordEn } from '../words/record.en.js';
export { sheetsEn } from '../words/sheets.en.js';
export { safetyEn } from '../words/safety.en.js';
export { stockEn } from '../words/stock.en.js';
export { unsentEn } from '../words/unsent.en.js';
export { watchingEn } from '../words/watching.en.js';
export { weeksEn } from '../words/weeks.en.js';
export { wordingsEn } from '../words/wordings.en.js';
export { workshopEn } from '../words/workshop.en.js';
