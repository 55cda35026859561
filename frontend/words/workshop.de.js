// The texts of what the workshop builds by in German, their keys in order and the same as in workshop.en.js.
export const workshopDe = {
  'build-sheets.lead': 'Zu Auftrag {order}, wie mit Ausgabe {revision} angenommen. Kein Preis steht darauf.',
  'build-sheets.paper': 'Bauunterlage {size}',
  'build-sheets.planned': 'Nicht freigegeben: Ihre Unterlage ist so gekennzeichnet, und niemand baut danach.',
  'build-sheets.shell': 'Zeile {line}, Karosserie {piece}',
  'build-sheets.title': 'Bauunterlagen',
};
