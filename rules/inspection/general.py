"""General tolerances of lengths by ISO 2768-1, in millimetres: classes f, m, c and v."""

from __future__ import annotations

from decimal import Decimal

#: The upper end of each range of lengths; the first begins at 0.5 mm.
_UP_TO = (3, 6, 30, 120, 400, 1000, 2000, 4000)
_LEAST = Decimal("0.5")

#: Class → tolerance on either side in each range; a dash: the standard gives none.
_TABLE = {
    "f": "0.05 0.05 0.1 0.15 0.2 0.3 0.5 -",
    "m": "0.1 0.1 0.2 0.3 0.5 0.8 1.2 2",
    "c": "0.2 0.3 0.5 0.8 1.2 2 3 4",
    "v": "- 0.5 1 1.5 2.5 4 6 8",
}

CLASSES = tuple(_TABLE)


def general_tolerance(length: Decimal, tolerance_class: str) -> Decimal | None:
    """± so many millimetres; None where the standard gives none for that length and class."""
    row = _TABLE.get(tolerance_class, "").split()
    place = next((at for at, end in enumerate(_UP_TO) if length <= end), None)
    if not row or place is None or length < _LEAST or row[place] == "-":
        return None
    return Decimal(row[place])
