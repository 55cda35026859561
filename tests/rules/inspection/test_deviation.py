"""What is out no further than it was when somebody said yes to it: each sort of finding, to its last digit."""

from __future__ import annotations

from decimal import Decimal

import pytest

from rules.inspection.colour import Lab
from rules.inspection.deviation import no_worse
from rules.inspection.judging import Between, Compared, Judged, Predicted, judged
from rules.inspection.subject import Kind, Limit, Phase, Subject, value_of

SAMPLE = Lab(50, 0, 0)

GAP = Subject(Kind.GAP, Phase.METAL, "df-top-left", Limit(Decimal("3.5"), most=Decimal("5.5")))
WELDS = Subject(Kind.WELD, Phase.METAL, "z-sills", Limit(Decimal(46), most=Decimal(46)))
NUGGET = Subject(Kind.NUGGET, Phase.METAL, "z-sills", Limit(Decimal("3.320"), Decimal("3.795")))
FILM = Subject(Kind.FILM, Phase.COATED, "bonnet", Limit(Decimal(100), most=Decimal(300)))
CUT = Subject(Kind.ADHESION, Phase.COATED, "", Limit(most=Decimal(1)))
HOLE = Subject(Kind.HOLE, Phase.METAL, "aerial", Limit(expected="absent"))
SURFACE = Subject(Kind.SURFACE, Phase.METAL, "", Limit(expected="yes"))
COLOUR = Subject(Kind.COLOUR, Phase.COATED, "", Limit(most=Decimal(1)))


def read(subject: Subject, text: str) -> Judged:
    value = value_of(subject.told, text)
    assert value is not None
    return judged(subject, value, SAMPLE)


@pytest.mark.parametrize(
    ("subject", "then", "now", "holds"),
    [
        # a measure: as it was, nearer to its limit, one hundredth further, and out on its other side
        (GAP, "6.1", "6.1", True),
        (GAP, "6.1", "6.10", True),
        (GAP, "6.1", "6.05", True),
        (GAP, "6.1", "6.101", False),
        (GAP, "6.1", "3.4", False),
        (GAP, "3.4", "3.4", True),
        (GAP, "3.4", "3.39", False),
        (NUGGET, "3.1", "3.100", True),
        (NUGGET, "3.1", "3.099", False),
        (FILM, "320", "320", True),
        (FILM, "320", "321", False),
        (FILM, "320", "99", False),
        # a count: one missing is not two, and one too many is something else than one missing
        (WELDS, "45", "45", True),
        (WELDS, "45", "44", False),
        (WELDS, "45", "47", False),
        # a class, 0 the best and 5 the worst (ISO 2409)
        (CUT, "3", "3", True),
        (CUT, "3", "2", True),
        (CUT, "3", "4", False),
        # what is found at a place is that or something else
        (HOLE, "present", "present", True),
        (HOLE, "present", "blanked", False),
        # a *no* says nothing of how far
        (SURFACE, "no", "no", False),
        # a colour: as far, nearer, further; and as far as it was to the other side
        (COLOUR, "50 0 4", "50 0 4", True),
        (COLOUR, "50 0 4", "50 0 3", True),
        (COLOUR, "50 0 4", "50 0 4.1", False),
        (COLOUR, "50 0 4", "50 0 -4", False),
    ],
)
def test_a_reading_is_conceded_as_far_as_it_was_out_and_no_further(
    subject: Subject, then: str, now: str, holds: bool
) -> None:
    assert no_worse(read(subject, now), read(subject, then)) is holds


def pair(by: str, wider: str, *, last: str = "df-bottom-left") -> Compared:
    return Compared(
        Between.TAPER, Phase.METAL, "door-front", ("df-top-left", last), Decimal(by), Decimal("1.0"), wider
    )  # fmt: skip


@pytest.mark.parametrize(
    ("now", "holds"),
    [
        (pair("1.1", "df-bottom-left"), True),
        (pair("1.01", "df-bottom-left"), True),
        (pair("1.11", "df-bottom-left"), False),
        (pair("2.5", "df-bottom-left"), False),
        # as much, and the other way round
        (pair("1.1", "df-top-left"), False),
        # as much, between other points
        (pair("1.1", "df-middle-left", last="df-middle-left"), False),
    ],
)
def test_a_taper_is_conceded_by_as_much_between_these_points_and_this_way_round(now: Compared, holds: bool) -> None:
    assert no_worse(now, pair("1.1", "df-bottom-left")) is holds


@pytest.mark.parametrize(
    ("least", "most", "holds"),
    [("3.70", "3.86", True), ("3.75", "3.91", True), ("3.69", "3.86", False), ("3.70", "6.01", False)],
)
def test_what_paint_will_leave_is_conceded_down_to_its_least(least: str, most: str, holds: bool) -> None:
    limit = Limit(Decimal("4.0"), most=Decimal("6.0"))
    then = Predicted("bs-left", Decimal("3.70"), Decimal("3.86"), limit)
    assert no_worse(Predicted("bs-left", Decimal(least), Decimal(most), limit), then) is holds


def test_one_thing_never_covers_another() -> None:
    other = Subject(Kind.GAP, Phase.METAL, "df-top-right", GAP.limit)
    assert not no_worse(read(other, "6.1"), read(GAP, "6.1"))
