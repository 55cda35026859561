// Die Texte einer besseren Folge der Plätze und der Erprobung von Zusagen auf Deutsch, ihre Schlüssel der Reihe nach und dieselben wie in weeks.en.js.
export const weeksDe = {
  'better.done': 'Erledigt: Die Plätze stehen jetzt in dieser Folge.',
  'better.lead': 'Sucht für die Plätze der kommenden Wochen die Folge mit den wenigsten Umrüstungen, dann mit der geringsten Verspätung, dann mit der früheren Anzahlung zuerst. Jede Zusage wird gehalten, und nichts verschiebt sich, bevor Sie zustimmen.',
  'better.look': 'Bessere Folge suchen',
  'better.move': 'Genau diese verschieben',
  'better.title': 'Eine bessere Folge für die kommenden Wochen',
  'better.weeks': 'Diese Woche und so viele weitere',
};
