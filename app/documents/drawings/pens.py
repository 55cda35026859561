"""Which line a stroke is drawn in: its ink and how the choice stands make the pen. One table for screen and paper."""

from __future__ import annotations

from dataclasses import dataclass

from app.documents.drawings.linework.stroke import Ink
from rules.answer import State


@dataclass(frozen=True, slots=True)
class Pen:
    """`width` and `dash` in steps of a thin line on a screen (a pixel); a renderer scales them. `fill`: inked in."""

    width: float
    dash: tuple[float, ...] = ()
    fill: bool = False


HATCH = Pen(0.6)
_COMMON, _THIN, _HEAVY, _FORCED = 1.1, 0.75, 2.4, 1.4
_INKS = {
    Ink.CENTRE: Pen(0.5, (14, 3, 2, 3)),
    Ink.PHANTOM: Pen(0.5, (12, 3, 2, 3, 2, 3)),
    Ink.CUT: Pen(2.4, (9, 4)),
}
_WIDTHS = {State.CHOSEN: _HEAVY, State.FORCED: _FORCED}
_HIDDEN = {State.CHOSEN: (2.4, 2.4), State.FORCED: (7.0, 2.4, 1.4, 2.4)}


def pen_of(ink: Ink, state: State | None) -> Pen:
    """The pen for a stroke; `state` None for what every shell has."""
    if ink in _INKS:
        return _INKS[ink]
    width = _WIDTHS.get(state, _THIN) if state else _COMMON
    if ink is Ink.HIDDEN:
        return Pen(width, _HIDDEN.get(state, (1.6, 1.6)) if state else (1.6, 1.6))
    dash = (4.0, 2.0) if state is State.FORCED else ()
    return Pen(width, dash, fill=ink is Ink.SOLID and state is not State.FORCED)
