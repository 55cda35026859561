"""Limits of the inspection against the standards and the handbook that they come from."""

from __future__ import annotations

from decimal import Decimal

import pytest

from rules.inspection.coating import class_of, cut_spacing
from rules.inspection.colour import Lab, difference
from rules.inspection.general import general_tolerance
from rules.inspection.listing import subjects_of, times_root
from rules.inspection.subject import Told, value_of
from tests.rules.demo_book import whole
from tests.rules.workshop.test_work import HOME, settled, work

#: G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 Color-Difference Formula", Color Research and Application 30 (2005),
#: table 1.
SHARMA = [
    # blue, where hue and chroma turn against each other
    ((50, 2.6772, -79.7751), (50, 0, -82.7485), 2.0425),
    ((50, 3.1571, -77.2803), (50, 0, -82.7485), 2.8615),
    ((50, 2.8361, -74.0200), (50, 0, -82.7485), 3.4412),
    ((50, -1.3802, -84.2814), (50, 0, -82.7485), 1.0000),
    # one of the two is grey
    ((50, 0, 0), (50, -1, 2), 2.3669),
    # hues half a turn apart, on either side of it
    ((50, 2.4900, -0.0010), (50, -2.4900, 0.0009), 7.1792),
    ((50, 2.4900, -0.0010), (50, -2.4900, 0.0011), 7.2195),
    ((50, -0.0010, 2.4900), (50, 0.0011, -2.4900), 4.7461),
    # far apart
    ((50, 2.5, 0), (73, 25, -18), 27.1492),
    ((50, 2.5, 0), (50, 3.1736, 0.5854), 1.0000),
    # as colour meters give them
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    ((2.0776, 0.0795, -1.1350), (0.9033, -0.0636, -0.5514), 0.9082),
]


@pytest.mark.parametrize(("one", "other", "wanted"), SHARMA)
def test_colours_differ_by_as_much_as_the_published_pairs(one: tuple, other: tuple, wanted: float) -> None:
    assert difference(Lab(*one), Lab(*other)) == pytest.approx(wanted, abs=0.00005)
    assert difference(Lab(*other), Lab(*one)) == pytest.approx(wanted, abs=0.00005)


@pytest.mark.parametrize(
    ("length", "tolerance_class", "wanted"),
    [
        # ISO 2768-1, table 1: a limit belongs to the range that it ends
        ("0.5", "f", "0.05"), ("3", "m", "0.1"), ("6", "m", "0.1"), ("6.1", "m", "0.2"), ("30", "c", "0.5"),
        ("120", "m", "0.3"), ("400", "m", "0.5"), ("1000", "m", "0.8"), ("2000", "f", "0.5"), ("4000", "v", "8"),
        # what the standard gives nothing for
        ("4000", "f", None), ("3", "v", None), ("0.4", "m", None), ("4001", "m", None), ("30", "k", None),
    ],
)  # fmt: skip
def test_general_tolerances_are_those_of_iso_2768_1(length: str, tolerance_class: str, wanted: str | None) -> None:
    assert general_tolerance(Decimal(length), tolerance_class) == (None if wanted is None else Decimal(wanted))


def test_the_class_of_a_cross_cut_is_that_of_iso_2409() -> None:
    assert [class_of(Decimal(share)) for share in ("0", "0.1", "5", "5.1", "15", "35", "65", "65.1")] == [
        0,
        1,
        1,
        2,
        2,
        3,
        4,
        5,
    ]
    assert [cut_spacing(Decimal(film)) for film in ("60", "61", "120", "250", "251")] == [1, 2, 2, 3, None]


def test_nuggets_of_the_published_schedule_all_lie_between_aim_and_five_times_the_root() -> None:
    """Production-engineering sheet for SAE 1010: thickness → fused zone."""
    schedule = {"0.79": "4.09", "1.02": "4.60", "1.27": "5.33", "1.57": "5.87", "1.98": "6.81"}
    for sheet, nugget in schedule.items():
        assert times_root(Decimal(4), Decimal(sheet)) <= Decimal(nugget) <= times_root(Decimal(5), Decimal(sheet))


def limit(own: dict[str, str], subject: str) -> tuple[Decimal | None, Decimal | None, Decimal | None, str]:
    book, shell = whole(), work(own)
    assert book.making.limits is not None
    found = next(one for one in subjects_of(book, shell, tuple(settled(own)), book.making.limits) if one.id == subject)
    return found.limit.least, found.limit.aim, found.limit.most, found.limit.expected


@pytest.mark.parametrize(
    ("own", "subject", "wanted"),
    [
        # thinner sheet 0.9: the row of the next thicker sheet, 1.02
        (HOME, "spacing:z-wing-left", (Decimal("19.00"), None, None, "")),
        (HOME, "overlap:z-wing-left", (Decimal("12.7"), None, None, "")),
        # three sheets need 30 % more spacing: 1.0 → 1.02 → 19.0 × 1.3
        (HOME, "spacing:z-frame-left", (Decimal("24.7"), None, None, "")),
        # every weld is there, no more and no less
        (HOME, "weld:z-wing-left", (Decimal(46), None, Decimal(46), "")),
        # a seam is looked over, not measured
        (HOME, "seam:z-sills", (None, None, None, "yes")),
        # the book's own tolerance, and that of a class of ISO 2768-1 (1180 mm: 1.2)
        (HOME, "datum:rails", (Decimal("1038.5"), None, Decimal("1041.5"), "")),
        (HOME, "datum:scuttle-width", (Decimal("1178.8"), None, Decimal("1181.2"), "")),
        # a leading edge may lie low, and never stands proud
        (HOME, "flush:df-top-left", (Decimal("-1.0"), None, Decimal(0), "")),
        (HOME, "flush:dr-top-left", (Decimal("-1.0"), None, Decimal("1.0"), "")),
        # holes by the map: blanked; left open as the tool pierced it; left undrilled
        ({**HOME, "holes": "blanked"}, "hole:reversing-left", (None, None, None, "blanked")),
        (HOME, "hole:reversing-left", (None, None, None, "present")),
        (HOME, "hole:aerial", (None, None, None, "absent")),
        (HOME, "hole:column", (None, None, None, "present")),
        (HOME, "thread:seats", (Decimal(8), None, None, "")),
        # primed: the film of its primer
        (HOME, "film:bonnet", (Decimal(15), None, Decimal(45), "")),
        ({**HOME, "finish": "painted", "scope": "outside", "colour": "chalk", "primer": "epoxy-and-filler"},
         "film:bonnet", (Decimal(100), None, Decimal(300), "")),
    ],
)  # fmt: skip
def test_every_subject_has_the_limit_that_the_book_gives(own: dict, subject: str, wanted: tuple) -> None:
    assert limit(own, subject) == wanted


def test_what_is_asked_follows_from_the_shell() -> None:
    ids = {one: _ids(own) for one, own in (("home", HOME), ("painted", PAINTED))}
    assert "painted:df-top-left" not in ids["home"]
    assert {"painted:df-top-left", "flush-painted:df-top-left", "colour", "sample"} <= ids["painted"]
    assert "feature:delivery" not in ids["home"]


PAINTED = {**HOME, "finish": "painted", "scope": "outside", "colour": "chalk", "primer": "epoxy-and-filler"}


def _ids(own: dict[str, str]) -> set[str]:
    book = whole()
    assert book.making.limits is not None
    return {one.id for one in subjects_of(book, work(own), tuple(settled(own)), book.making.limits)}


@pytest.mark.parametrize(
    ("told", "text", "wanted"),
    [
        (Told.MEASURE, "3.795", Decimal("3.795")), (Told.MEASURE, "-0.5", Decimal("-0.5")), (Told.MEASURE, "3,8", None),
        (Told.MEASURE, "", None), (Told.MEASURE, "1e3", None), (Told.COUNT, "46", Decimal(46)),
        (Told.COUNT, "4.5", None),
        (Told.CLASS, "5", Decimal(5)), (Told.CLASS, "6", None), (Told.YES, "no", "no"), (Told.FOUND, "drilled", None),
        (Told.COLOUR, "50 2.6772 -79.7751", Lab(50, 2.6772, -79.7751)), (Told.COLOUR, "50 2", None),
        (Told.COLOUR, "0 0 0", Lab(0, 0, 0)), (Told.COLOUR, "100 0 0", Lab(100, 0, 0)),
        (Told.COLOUR, "-0.1 0 0", None), (Told.COLOUR, "100.1 0 0", None),
        (Told.COLOUR, "101 0 0", None),
    ],
)  # fmt: skip
def test_a_reading_is_a_reading_or_nothing(told: Told, text: str, wanted: object) -> None:
    assert value_of(told, text) == wanted
