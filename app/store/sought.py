"""Walking an index of texts in the order of its list: what a migration keeps by triggers is asked here, never written.

Each word is found wherever it stands in a text: by its pieces of three letters, where it has as many. A shorter one is
looked for in the texts themselves, from the first of the list on: where it stands anywhere, it soon turns up.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

INDEXES = ("enquiries_sought", "quotations_sought", "orders_sought", "out_sought", "customers_sought")

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
    asked = [f"text : {_quoted(word)}" for word in words if len(word) >= PIECE]
    asked += [] if dealer is None else [f"dealer : {_quoted(f'={dealer}=')}"]
    asked += [f"standing : {_quoted(standing[:PIECE])}"] if standing else []
    if asked:
        where.add(f"{index} MATCH ?", " AND ".join(asked))
    look_through(where, index, [word for word in words if len(word) < PIECE])


def look_through(where: Where, index: str, words: Sequence[str]) -> None:
    """The same by reading the texts, where something else has made them few."""
    for word in words:
        where.add(f"{index}.text LIKE '%' || ? || '%'", word)


def _quoted(text: str) -> str:
    doubled = text.replace('"', '""')
    return f'"{doubled}"'
