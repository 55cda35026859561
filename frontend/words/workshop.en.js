// The texts of what the workshop builds by in English, their keys in order and the same as in workshop.de.js.
export const workshopEn = {
  'build-sheets.lead': 'Of order {order}, as accepted with revision {revision}. No price is on them.',
  'build-sheets.paper': 'Build sheet {size}',
  'build-sheets.planned': 'Not released: its sheet is marked so, and nobody builds from it.',
  'build-sheets.shell': 'Line {line}, shell {piece}',
  'build-sheets.title': 'Build sheets',
  'sheet-code.away': 'The desk can’t be reached from here.',
  'sheet-code.away-then': 'Nobody can say now whether this sheet still holds. Ask the workshop lead before you begin.',
  'sheet-code.current': 'This sheet is current.',
  'sheet-code.current-then': 'Check that serial and revision on it are those of the shell before you.',
  'sheet-code.old': 'Stop: this sheet is out of date.',
  'sheet-code.old-then': 'Don’t build from it. Fetch the current sheet, and destroy this one.',
  'sheet-code.unknown': 'No sheet of ours has this code.',
  'sheet-code.unknown-then': 'Scan it once more; if it stays so, ask the workshop lead and don’t build from it.',
};
