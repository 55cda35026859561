// Die Texte zu den Ausgaben der Bauunterlagen auf Deutsch, ihre Schlüssel der Reihe nach wie in sheets.en.js.
export const sheetsDe = {
  'sheets.again': 'Unterlage neu ausstellen',
  'sheets.fetch': 'Bauunterlage {serial}, Ausgabe {revision}',
  'sheets.number': 'Unterlage Ausgabe {revision}',
  'sheets.revision': 'Bauunterlage, Ausgabe {revision} vom {day}',
};
