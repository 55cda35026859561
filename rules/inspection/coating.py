"""The cross-cut test of a coating by ISO 2409: the class of what flaked off, and how far apart the cuts are."""

from __future__ import annotations

from decimal import Decimal

CLASSES = range(6)
WORST = CLASSES[-1]

#: Percent of the lattice that flaked off → class 1 to 4; 0 where nothing did, 5 beyond.
_FLAKED = (5, 15, 35, 65)

#: Film up to so many µm on metal → millimetres between two cuts.
_SPACING = ((60, 1), (120, 2), (250, 3))


def class_of(flaked: Decimal) -> int:
    """The class of a lattice of which that many percent flaked off."""
    if flaked <= 0:
        return 0
    return next((place for place, most in enumerate(_FLAKED, 1) if flaked <= most), WORST)


def cut_spacing(film: Decimal) -> int | None:
    """Millimetres from cut to cut on a film of that many µm; None where it is too thick for the test."""
    return next((spacing for most, spacing in _SPACING if film <= most), None)
