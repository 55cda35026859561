"""A table as CSV for a spreadsheet or a program: as RFC 4180 writes it, a header line of ids first.

A text that a spreadsheet would take for a formula is put behind an apostrophe.
"""

from __future__ import annotations

import csv
from collections.abc import Collection, Iterable, Sequence
from io import StringIO

#: What a spreadsheet begins a formula with (OWASP, CSV injection).
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def table(header: Sequence[str], rows: Iterable[dict[str, str]], figures: Collection[str] = ()) -> str:
    """A cell that is missing is empty. `figures`: columns that are our own and may well be below nothing."""
    out = StringIO()
    writer = csv.DictWriter(out, header, restval="")
    writer.writeheader()
    writer.writerows(_guarded(row, figures) for row in rows)
    return out.getvalue()


def _guarded(row: dict[str, str], figures: Collection[str]) -> dict[str, str]:
    return {
        name: f"'{value}" if value.startswith(_FORMULA) and name not in figures else value
        for name, value in row.items()
    }
