"""How far a finding is out, and whether it is so no further, and in no other way, than it was another time.

What has a limit on a scale (measures, counts, classes, pairs of points, what paint will leave) is held side by side
below and above its limits. A colour is no further from its sample, and lies on the same side of it. What is found at a
place has to be the same. A *no* doesn't say how far: two of them can't be held against each other.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from rules.inspection.colour import Lab, difference
from rules.inspection.judging import Compared, Judged, Predicted
from rules.inspection.subject import Limit, Told

Finding = Judged | Compared | Predicted

_NONE = Decimal(0)


@dataclass(frozen=True, slots=True)
class Beyond:
    """By how much the limits are passed on either side, in the limit's own unit; 0 where they aren't."""

    below: Decimal = _NONE
    above: Decimal = _NONE


def id_of(one: Finding) -> str:
    """Under which it is conceded: of a judged one its subject's."""
    return one.subject.id if isinstance(one, Judged) else one.id


def has_scale(one: Finding) -> bool:
    """Whether it can be further out or less."""
    return not isinstance(one, Judged) or not one.subject.limit.expected


def beyond(one: Finding) -> Beyond:
    """Of what has a scale. Of two points: above where the first is the wider, below where the second is."""
    if isinstance(one, Compared):
        over = max(_NONE, one.by - one.most)
        return Beyond(above=over) if one.wider == one.points[0] else Beyond(below=over)
    if isinstance(one, Predicted):
        return _beyond(one.least, one.most, one.limit)
    return Beyond() if one.measured is None else _beyond(one.measured, one.measured, one.subject.limit)


def _beyond(low: Decimal, high: Decimal, limit: Limit) -> Beyond:
    below = _NONE if limit.least is None else max(_NONE, limit.least - low)
    above = _NONE if limit.most is None else max(_NONE, high - limit.most)
    return Beyond(below, above)


def no_worse(now: Finding, then: Finding) -> bool:
    """Whether `now` is covered by what was said yes to `then`; of another id it never is."""
    if id_of(now) != id_of(then):
        return False
    if isinstance(now, Judged) and isinstance(then, Judged):
        if not has_scale(now):
            return now.subject.told is Told.FOUND and now.value == then.value
        if isinstance(now.value, Lab) and isinstance(then.value, Lab):
            return _nearer(now, then) and _same_side(now.value, then.value, then.measured)
    return _nearer(now, then)


def _nearer(now: Finding, then: Finding) -> bool:
    here, there = beyond(now), beyond(then)
    return here.below <= there.below and here.above <= there.above


def _same_side(now: Lab, then: Lab, apart: Decimal | None) -> bool:
    """No further from the colour that was looked at than that was from its sample."""
    return apart is not None and difference(now, then) <= float(apart)


def by_id(findings: Iterable[Finding]) -> dict[str, Finding]:
    return {id_of(one): one for one in findings}
