// The texts of what the workshop builds by in German, their keys in order and the same as in workshop.en.js.
export const workshopDe = {
  'build-sheets.lead': 'Zu Auftrag {order}, wie mit Ausgabe {revision} angenommen. Kein Preis steht darauf.',
  'build-sheets.paper': 'Bauunterlage {size}',
  'build-sheets.planned': 'Nicht freigegeben: Ihre Unterlage ist so gekennzeichnet, und niemand baut danach.',
  'build-sheets.shell': 'Zeile {line}, Karosserie {piece}',
  'build-sheets.title': 'Bauunterlagen',
  'sheet-code.away': 'Das Auftragsbüro ist von hier nicht zu erreichen.',
  'sheet-code.away-then': 'Im Augenblick kann niemand sagen, ob diese Unterlage noch gilt. Fragen Sie die Werkstattleitung, bevor Sie anfangen.',
  'sheet-code.current': 'Diese Unterlage gilt.',
  'sheet-code.current-then': 'Vergleichen Sie Seriennummer und Ausgabe mit der Karosserie vor Ihnen.',
  'sheet-code.old': 'Halt: Diese Unterlage gilt nicht mehr.',
  'sheet-code.old-then': 'Bauen Sie nicht danach. Holen Sie die gültige Unterlage und vernichten Sie diese.',
  'sheet-code.unknown': 'Keine unserer Unterlagen hat diesen Code.',
  'sheet-code.unknown-then': 'Scannen Sie ihn noch einmal; bleibt es dabei, fragen Sie die Werkstattleitung und bauen Sie nicht danach.',
};
