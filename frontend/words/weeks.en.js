// The texts of a better order of slots and of trying promises out, in English, their keys in order and the same as in weeks.de.js.
export const weeksEn = {
  'better.done': 'Done: the slots are in that order now.',
  'better.lead': 'Seeks, for the slots of the weeks ahead, the order with the fewest changeovers, then the least lateness, then the earlier deposit first. Every promise is kept, and nothing moves before you say so.',
  'better.look': 'Seek a better order',
  'better.move': 'Move exactly these',
  'better.title': 'A better order for the weeks ahead',
  'better.weeks': 'This week and so many more',
};
