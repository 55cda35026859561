"""A rule book's text changed piece by piece: by form or as text, by percent or from a sheet of prices."""

from __future__ import annotations

from rules.drafting.entry import Entry, entry_of, lines_of, rewritten
from rules.drafting.sheet import Piece, Sheet, sheet_of

__all__ = ["Entry", "Piece", "Sheet", "entry_of", "lines_of", "rewritten", "sheet_of"]
