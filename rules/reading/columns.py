"""The columns of those tables whose rows each declare an id and say something in every language. Names only."""

from __future__ import annotations

from collections.abc import Mapping

#: Kind of block → the columns of its table that stand before one for each language; the first declares an id.
COLUMNS: Mapping[str, tuple[str, ...]] = {
    "lists": ("list", "currency"),
    "categories": ("category",),
    "groups": ("group",),
    "processes": ("process",),
    "operations": ("operation", "sort", "process", "when"),
    "zones": ("zone", "operation", "welds", "sheets", "when"),
    "holes": ("hole", "sort", "stage", "size", "x", "y", "handed", "drill", "blank", "leave"),
    "gap": ("point", "side", "x", "y", "when"),
    "datums": ("datum", "sort", "stage", "target", "when"),
    "coats": ("coat", "film", "overcoat", "when"),
    "threads": ("thread", "count", "when"),
    "panels": ("panel", "when"),
    "kit": ("line", "sort", "when"),
}
