"""A shell on its way through the shop: what was done to it, and how it stands by that. Pure.

How a shell stands is never written down: it is read off what was done, by the route that was frozen at its release.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from rules.model import DESPATCHED, ORDERED, Work


class ShellState(Enum):
    """How a shell stands, the least far on first; the last three lie beside the way."""

    PLANNED = "planned"
    RELEASED = "released"
    IN_BUILD = "in-build"
    INSPECTED = "inspected"
    IN_PAINT = "in-paint"
    READY = "ready"
    DESPATCHED = "despatched"
    ON_HOLD = "on-hold"
    REJECTED = "rejected"
    CANCELLED = "cancelled"


class Deed(Enum):
    """What is done to a shell. BEGUN: it goes into a stage that has to be begun by somebody's word, which is paint.

    The last three are of rework: SENT_BACK to a stage, MENDED there, or WITHDRAWN, with nothing mended.
    """

    RELEASED = "released"
    BEGUN = "begun"
    DONE = "done"
    HELD = "held"
    WENT_ON = "went-on"
    REJECTED = "rejected"
    CANCELLED = "cancelled"
    DESPATCHED = "despatched"
    SENT_BACK = "sent-back"
    MENDED = "mended"
    WITHDRAWN = "withdrawn"


@dataclass(frozen=True, slots=True)
class Stop:
    """A stage of the shell's own route, in its order, and what is done there."""

    stage: str
    work: Work = Work.BUILD


@dataclass(frozen=True, slots=True)
class Done:
    """`by`: who was signed in; `signed`: whose personal code signed it, where one did; `why` where one is asked for."""

    deed: Deed
    at: datetime
    by: str
    stage: str | None = None
    why: str = ""
    signed: str | None = None


@dataclass(frozen=True, slots=True)
class Progress:
    """`stage`: where it is, or would go on; None before release and where none is left. `through`: stages done.

    `back`: stages with rework that nobody has mended, in the route's order; the first of them is where it is.
    """

    state: ShellState
    stage: str | None = None
    through: tuple[str, ...] = ()
    back: tuple[str, ...] = ()


class Barred(Enum):
    """Why a deed can't be done to a shell as it stands."""

    PLANNED = "planned"
    RELEASED = "released"
    ON_HOLD = "on-hold"
    NOT_HELD = "not-held"
    NOT_NEXT = "not-next"
    NOT_BEGUN = "not-begun"
    IN_REWORK = "in-rework"
    NOT_COME = "not-come"
    MENDED = "mended"
    READY = "ready"
    NOT_READY = "not-ready"
    DESPATCHED = "despatched"
    OVER = "over"


#: Deeds that end a shell's way.
_ENDS = {
    Deed.REJECTED: ShellState.REJECTED,
    Deed.CANCELLED: ShellState.CANCELLED,
    Deed.DESPATCHED: ShellState.DESPATCHED,
}

#: A shell that stands like this is built no longer: it has left, or nobody goes on with it.
ENDED = frozenset(_ENDS.values())

#: Of those, what leaves the house by no order.
OVER = ENDED - {ShellState.DESPATCHED}


def progress(deeds: Sequence[Done], route: Sequence[Stop]) -> Progress:
    """How the shell stands after all that was done to it, by its route."""
    through, back = _through(deeds, route), _back(deeds, route)
    left = _left(through, route)
    stage = back[0] if back else left[0].stage if left else None
    return Progress(_state(deeds, route, through, left, back), stage if deeds else None, through, back)


def _through(deeds: Sequence[Done], route: Sequence[Stop]) -> tuple[str, ...]:
    """Stages done. An inspection no longer holds once something was mended that comes before it."""
    stages = [stop.stage for stop in route]
    through: list[str] = []
    for done in deeds:
        if done.deed is Deed.DONE and done.stage is not None:
            through.append(done.stage)
        elif done.deed is Deed.MENDED:
            before = stages.index(done.stage) if done.stage in stages else 0
            undone = {stop.stage for stop in route[before + 1 :] if stop.work is Work.INSPECTION}
            through = [stage for stage in through if stage not in undone]
    return tuple(through)


def _left(through: Sequence[str], route: Sequence[Stop]) -> tuple[Stop, ...]:
    return tuple(stop for stop in route if stop.stage not in through and stop.work is not Work.NONE)


def _back(deeds: Sequence[Done], route: Sequence[Stop]) -> tuple[str, ...]:
    """Stages that it was sent back to more often than somebody was finished with that."""
    sent = Counter(done.stage for done in deeds if done.deed is Deed.SENT_BACK)
    sent -= Counter(done.stage for done in deeds if done.deed in (Deed.MENDED, Deed.WITHDRAWN))
    return tuple(stop.stage for stop in route if stop.stage in sent)


def _state(
    deeds: Sequence[Done],
    route: Sequence[Stop],
    through: tuple[str, ...],
    left: tuple[Stop, ...],
    back: tuple[str, ...],
) -> ShellState:
    ends = [_ENDS[done.deed] for done in deeds if done.deed in _ENDS]
    if ends or not deeds:
        return ends[0] if ends else ShellState.PLANNED
    if _held(deeds):
        return ShellState.ON_HOLD
    if not left and not back:
        return ShellState.READY
    return _on_the_way(deeds, route, through, sent_back=bool(back))


def _on_the_way(
    deeds: Sequence[Done], route: Sequence[Stop], through: tuple[str, ...], *, sent_back: bool
) -> ShellState:
    """A shell that was painted stays IN_PAINT until nothing is left to do: it is never *inspected* again.

    One with rework is not *inspected* either, however far it was.
    """
    begun = {done.stage for done in deeds if done.deed is Deed.BEGUN}
    if any(stop.work is Work.PAINT and stop.stage in (*through, *begun) for stop in route):
        return ShellState.IN_PAINT
    if sent_back:
        return ShellState.IN_BUILD
    if any(stop.work is Work.INSPECTION and stop.stage in through for stop in route):
        return ShellState.INSPECTED
    return ShellState.IN_BUILD if through else ShellState.RELEASED


def _held(deeds: Sequence[Done]) -> bool:
    last = [done.deed for done in deeds if done.deed in (Deed.HELD, Deed.WENT_ON)]
    return bool(last) and last[-1] is Deed.HELD


def barred(deed: Deed, stage: str | None, deeds: Sequence[Done], route: Sequence[Stop]) -> Barred | None:
    """Why it can't be done to the shell as it stands; None where it can."""
    stands = progress(deeds, route)
    if stands.state in OVER:
        return Barred.OVER
    if stands.state is ShellState.DESPATCHED:
        return Barred.DESPATCHED
    if deed is Deed.CANCELLED:
        return None
    if deed is Deed.RELEASED:
        return None if stands.state is ShellState.PLANNED else Barred.RELEASED
    if stands.state is ShellState.PLANNED:
        return Barred.PLANNED
    if deed in (Deed.HELD, Deed.WENT_ON):
        return _holding(deed, held=stands.state is ShellState.ON_HOLD)
    if deed in (Deed.SENT_BACK, Deed.MENDED, Deed.WITHDRAWN):
        return _rework_barred(deed, stage, stands, deeds, route)
    if deed is Deed.DESPATCHED:
        return None if stands.state is ShellState.READY else Barred.NOT_READY
    return None if deed is Deed.REJECTED else _stage_barred(deed, stage, stands, deeds, route)


def in_booth(deeds: Sequence[Done], route: Sequence[Stop]) -> bool:
    """Whether its paint is begun and not done."""
    at = progress(deeds, route).stage
    paints = any(stop.work is Work.PAINT for stop in route if stop.stage == at)
    return paints and any(done.deed is Deed.BEGUN and done.stage == at for done in deeds)


def idle(deeds: Sequence[Done], route: Sequence[Stop]) -> Barred | None:
    """Why nobody works on the shell now; None where somebody may."""
    idle_as = {
        ShellState.PLANNED: Barred.PLANNED,
        ShellState.ON_HOLD: Barred.ON_HOLD,
        ShellState.REJECTED: Barred.OVER,
        ShellState.CANCELLED: Barred.OVER,
        ShellState.DESPATCHED: Barred.DESPATCHED,
    }
    return idle_as.get(progress(deeds, route).state)


def _rework_barred(
    deed: Deed, stage: str | None, stands: Progress, deeds: Sequence[Done], route: Sequence[Stop]
) -> Barred | None:
    """It is sent back to a stage that it has come into, and mended where it was sent back to; no stage: to any."""
    if deed is Deed.SENT_BACK:
        return None if stage is None or stage in points(deeds, route)[0][1:] else Barred.NOT_COME
    if deed is Deed.MENDED and stands.state is ShellState.ON_HOLD:
        return Barred.ON_HOLD
    return None if stage in stands.back else Barred.MENDED


def _holding(deed: Deed, *, held: bool) -> Barred | None:
    if deed is Deed.WENT_ON:
        return None if held else Barred.NOT_HELD
    return Barred.ON_HOLD if held else None


def _stage_barred(
    deed: Deed, stage: str | None, stands: Progress, deeds: Sequence[Done], route: Sequence[Stop]
) -> Barred | None:
    """Stages are done in the route's order; paint is begun before it is done, and nothing else is begun."""
    if stands.state is ShellState.ON_HOLD:
        return Barred.ON_HOLD
    if stands.back:
        return Barred.IN_REWORK
    if stands.stage is None:
        return Barred.READY
    begins = any(stop.work is Work.PAINT for stop in route if stop.stage == stage)
    if stage != stands.stage or (deed is Deed.BEGUN and not begins):
        return Barred.NOT_NEXT
    begun = any(done.deed is Deed.BEGUN and done.stage == stage for done in deeds)
    if deed is Deed.BEGUN:
        return Barred.NOT_NEXT if begun else None
    return Barred.NOT_BEGUN if begins and not begun else None


def points(deeds: Sequence[Done], route: Sequence[Stop]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What the shell has come into, ORDERED first, and what is ahead, DESPATCHED last: for `rules.workshop.late`.

    A stage is come into once those before it are done; paint only once it is begun.
    """
    through, stops = _through(deeds, route), [stop.stage for stop in route if stop.work is not Work.NONE]
    at = next(iter(_left(through, route)), None)
    if not deeds or at is None:
        come = through
    else:
        begun = any(done.deed is Deed.BEGUN and done.stage == at.stage for done in deeds)
        come = through if at.work is Work.PAINT and not begun else (*through, at.stage)
    return (ORDERED, *come), (*(stop for stop in stops if stop not in come), DESPATCHED)
