"""Walking an index of texts in the order of its list: what a migration keeps by triggers is asked here, never written.

Each word is found wherever it stands in a text: by its pieces of three letters, where it has as many. A shorter one is
looked for in the texts themselves, from the first of the list on: where it stands anywhere, it soon turns up.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

INDEXES = ("enquiries_sought", "quotations_sought", "orders_sought", "out_sought", "customers_sought")

#: Figures of a long number that are asked of the index; the whole is then looked for in the few texts that hold them.
RARE = 5
_NUMBER = re.compile(rf"\d{{{RARE}}}$")

#: Letters of the pieces by which the index finds.
PIECE = 3


@dataclass
class Where:
    """Conditions of one question, with what fills them."""

    parts: list[str] = field(default_factory=list)
    facts: list[str | int] = field(default_factory=list)

    def add(self, condition: str, *facts: str | int) -> None:
        self.parts.append(condition)
        self.facts += facts

    def sql(self) -> str:
        return " AND ".join(self.parts) or "true"


def narrow(where: Where, index: str, words: Sequence[str], *, dealer: str | None = None, standing: str = "") -> None:
    """Those of the index in which every one of `words` (app.domain.finding) stands, of that dealer and standing."""
    asked = [f"text : {_quoted(_rare(word))}" for word in words if len(word) >= PIECE]
    asked += [] if dealer is None else [f"dealer : {_quoted(f'={dealer}=')}"]
    asked += [f"standing : {_quoted(standing[:PIECE])}"] if standing else []
    if asked:
        where.add(f"{index} MATCH ?", " AND ".join(asked))
    look_through(where, index, [word for word in words if len(word) < PIECE])
    for word in words:
        if _rare(word) != word:
            where.add(f"instr({index}.text, ?) > 0", word)


def look_through(where: Where, index: str, words: Sequence[str]) -> None:
    """The same by reading the texts, where something else has made them few."""
    for word in words:
        where.add(f"{index}.text LIKE '%' || ? || '%'", word)


def _rare(word: str) -> str:
    """What of it few texts hold: the end of a number. How it begins, with a year or a dialling code, is in most."""
    return word[-RARE:] if _NUMBER.search(word) else word


def _quoted(text: str) -> str:
    doubled = text.replace('"', '""')
    return f'"{doubled}"'
