"""The nearest shells that can be built, where one can't be or stands only once a part or an approval is there."""

from rules.suggest.offer import suggest
from rules.suggest.suggestion import Beside, Change, Suggestion, Suggestions
from rules.suggest.surroundings import Surroundings

__all__ = ["Beside", "Change", "Suggestion", "Suggestions", "Surroundings", "suggest"]
