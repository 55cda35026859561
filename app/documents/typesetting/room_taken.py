"""How much room a story takes, judged by its parts: nothing is laid out for it. It knows no paper."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, PageBreak

#: What a layout forgives where a thing is a hair too high, and more, in points.
_FORGIVEN = 0.1


def at_most(story: Iterable[Flowable], width: float) -> float:
    """Points of height, with all the room before and after, of which neighbours share some."""
    laid = (part for part in _parts(story) if not isinstance(part, CondPageBreak))
    return sum((_height(part, width) + part.getSpaceBefore() + part.getSpaceAfter() for part in laid), 0.0)


def fewest_sheets(story: Iterable[Flowable], width: float, height: float) -> int:
    """So many sheets with that much room it fills at least: as if everything could be torn anywhere.

    What is kept together, repeated or not torn takes more; a break is made only where it is bound to be made.
    """
    room = height + _FORGIVEN
    sheets, used, after = 1, 0.0, 0.0
    for part in _parts(story):
        if isinstance(part, PageBreak | CondPageBreak):
            if used and (isinstance(part, PageBreak) or room - used < part.height):
                sheets, used, after = sheets + 1, 0.0, 0.0
            continue
        # Room between two parts is never carried over to the next sheet.
        used = min(room, used + max(after, part.getSpaceBefore())) if used else 0.0
        full, used = divmod(used + _height(part, width), room)
        sheets, after = sheets + int(full), part.getSpaceAfter()
    return sheets


def _parts(story: Iterable[Flowable]) -> Iterator[Flowable]:
    """With those of what is kept together, one by one."""
    for flowable in story:
        if isinstance(flowable, KeepTogether):
            yield from _parts(flowable._content)  # type: ignore[attr-defined]
        else:
            yield flowable


def _height(part: Flowable, width: float) -> float:
    return float(part.wrap(width, 10_000)[1])
