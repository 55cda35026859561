"""The gap map: one display list for screen and paper; what fails differs by shape, and the list says the same."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.documents.drawings.drawing import Drawing
from app.documents.drawings.linework.stroke import Ink
from app.documents.saying.figures import Figures
from app.documents.saying.voice import Voice
from app.documents.workshop.gap_map import GapMap, gap_map, numbers_of
from rules.inspection.judging import all_judged, compared, film_of, predicted
from rules.inspection.listing import subjects_of
from rules.inspection.subject import Phase, Value
from tests.rules.demo_book import whole
from tests.rules.inspection.test_limits import PAINTED
from tests.rules.workshop.test_work import settled, work

#: Case 29's doors, and one point out of its limits.
READ: dict[str, Value] = {
    "gap:df-top-left": Decimal("3.6"),
    "gap:df-bottom-left": Decimal("4.7"),
    "gap:df-top-right": Decimal("4.6"),
    "gap:df-bottom-right": Decimal("4.6"),
    "gap:bo-front-left": Decimal("3.9"),
    "painted:df-top-right": Decimal("4.2"),
}


def drawn(language: str = "en", locale: str = "en_GB") -> Drawing:
    book, shell = whole(), work(PAINTED)
    assert book.making.limits is not None
    subjects = subjects_of(book, shell, tuple(settled(PAINTED)), book.making.limits)
    judged = {one.subject.id: one for one in all_judged(subjects, READ)}
    expected = predicted(shell.gaps, READ, film_of(READ, book.making.limits))
    pairs = compared(shell.gaps, READ, Phase.METAL)
    shown = GapMap(settled(PAINTED), shell.gaps, judged, {one.point: one for one in expected}, pairs)
    return gap_map(shown, Voice(book, language, Figures(locale, "")))


def part(drawing: Drawing, element: str):  # type: ignore[no-untyped-def]
    return next(one for one in drawing.parts if one.element == element)


def test_a_point_shows_metal_what_paint_will_leave_and_what_it_left() -> None:
    told = [letters.text for letters in part(drawn(), "point-df-top-right").letters]
    assert told == ["4.6", "4.20", "4.36", "4.2", str(numbers_of(work(PAINTED).gaps)["df-top-right"])]
    assert [letters.text for letters in part(drawn("de", "de_DE"), "point-df-top-left").letters][:3] == [
        "3,6", "3,20", "3,36",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("point", "inks"),
    [
        # within: a leader and a ring
        ("df-top-left", [Ink.HIDDEN, Ink.LINE]),
        # out: a full square, and a frame round its figures
        ("bo-front-left", [Ink.HIDDEN, Ink.SOLID, Ink.LINE]),
        # nobody has read it: a dotted ring
        ("dr-top-left", [Ink.HIDDEN, Ink.HIDDEN]),
    ],
)
def test_how_a_point_stands_is_told_by_its_shape(point: str, inks: list[Ink]) -> None:
    assert [stroke.ink for stroke in part(drawn(), f"point-{point}").strokes] == inks


def test_a_pair_that_fails_is_heavy_with_its_figure_and_one_that_passes_is_thin_and_both_are_said() -> None:
    pairs = [one for one in drawn().parts if one.element.startswith("compared-")]
    told = {one.words: ([stroke.ink for stroke in one.strokes], [each.text for each in one.letters]) for one in pairs}
    assert told == {
        "Door to front wing, 1 to 3: taper 1.1 mm, at most 1.0 mm: out": ([Ink.CUT], ["1.1 > 1.0"]),
        "Door to front wing, 2 to 4: taper 0.0 mm, at most 1.0 mm: within": ([Ink.CENTRE], []),
        "Door to front wing, 1 to 2: left to right 1.0 mm, at most 1.0 mm: within": ([Ink.CENTRE], []),
        "Door to front wing, 3 to 4: left to right 0.1 mm, at most 1.0 mm: within": ([Ink.CENTRE], []),
    }
    assert set(told) <= set(drawn().lines)


def test_nothing_is_drawn_off_the_sheet() -> None:
    drawing = drawn()
    points = [point for one in drawing.parts for stroke in one.strokes for point in stroke.points()]
    points += [letters.at for one in drawing.parts for letters in one.letters]
    assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in points)
