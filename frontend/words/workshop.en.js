// The texts of what the workshop builds by in English, their keys in order and the same as in workshop.de.js.
export const workshopEn = {
  'build-sheets.lead': 'Of order {order}, as accepted with revision {revision}. No price is on them.',
  'build-sheets.paper': 'Build sheet {size}',
  'build-sheets.planned': 'Not released: its sheet is marked so, and nobody builds from it.',
  'build-sheets.shell': 'Line {line}, shell {piece}',
  'build-sheets.title': 'Build sheets',
};
