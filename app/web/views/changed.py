"""What changed between two revisions as plain data. Shaping only: ids, labels and amounts, no sentence."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from app.domain.quotations.changes import Changes, LineChange
from rules.model import Book


def changes_view(changes: Changes | None, book: Book) -> dict[str, Any] | None:
    """`book`: the later revision's, for the names of extras."""
    if changes is None:
        return None
    labels = {extra.id: extra.label for extra in book.extras}
    plain = asdict(changes)
    return {
        **plain,
        "any": changes.any,
        "lines": [_line(line) for line in changes.lines],
        "extras": [{**asdict(extra), "label": labels.get(extra.extra, {})} for extra in changes.extras],
    }


def _line(line: LineChange) -> dict[str, Any]:
    return {**asdict(line), "came": line.came, "went": line.went}
