// The texts of build sheets' revisions in English, their keys in order and the same as in sheets.de.js.
export const sheetsEn = {
  'sheets.again': 'Draw the sheet up again',
  'sheets.fetch': 'Build sheet {serial}, revision {revision}',
  'sheets.number': 'sheet revision {revision}',
  'sheets.revision': 'Build sheet, revision {revision} of {day}',
};
