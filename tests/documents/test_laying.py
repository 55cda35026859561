"""What stands where: laid once, and drawn from that."""

from __future__ import annotations

from io import BytesIO

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, PageBreak, Spacer

from app.documents.typesetting import fonts
from app.documents.typesetting.laying import Laid, Room, lay
from app.documents.typesetting.lettering import BODY, heading, opening, text
from app.documents.typesetting.room_taken import fewest_sheets
from app.documents.typesetting.ruled import between, headed, ruled

ROOM = Room((120 * mm, 100 * mm), 5 * mm, 5 * mm, 110 * mm, 90 * mm, side=5 * mm, top=5 * mm, foot=3 * mm)
WORDS = " ".join(f"word{number}" for number in range(120))


@pytest.fixture(autouse=True, scope="module")
def lettered() -> None:
    fonts.register()


def drawn(laid: Laid) -> list[str]:
    """The words on each sheet."""
    out = BytesIO()
    canvas = Canvas(out, pagesize=ROOM.size)
    for sheet in laid.sheets:
        for placed in sheet:
            placed.draw(canvas)
        canvas.showPage()
    canvas.save()
    document = pypdfium2.PdfDocument(out.getvalue())
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


def test_what_was_laid_is_drawn_though_its_parts_were_laid_elsewhere_since() -> None:
    torn = text(WORDS, BODY)
    laid = lay([Spacer(0, 60 * mm), torn], ROOM)
    before = drawn(laid)
    lay([Spacer(0, 70 * mm), torn], ROOM)
    lay([torn], ROOM)
    assert drawn(laid) == before
    assert len(before) == 2
    assert " ".join(before) == WORDS


def test_a_story_can_be_laid_again_and_keeps_together_what_it_kept() -> None:
    story = [Spacer(0, 72 * mm), heading("Head"), text("Below it.")]
    once, again = lay(story, ROOM), lay(story, ROOM)
    assert [len(sheet) for sheet in once.sheets] == [len(sheet) for sheet in again.sheets] == [1, 2]


def test_how_much_of_the_last_sheet_is_filled_is_told() -> None:
    assert lay([Spacer(0, 41 * mm)], ROOM).last == pytest.approx(0.5)
    assert lay([Spacer(0, 41 * mm), PageBreak(), Spacer(0, 8.2 * mm)], ROOM).last == pytest.approx(0.1)


def parts() -> st.SearchStrategy[Flowable]:
    high = st.integers(1, 70).map(lambda millimetres: millimetres * mm)
    plain = st.one_of(
        high.map(lambda height: Spacer(0, height)),
        st.integers(1, 80).map(lambda count: text(" ".join(WORDS.split()[:count]), BODY)),
        st.integers(1, 25).map(_table),
    )
    several = st.lists(plain, min_size=1, max_size=3).map(lambda some: KeepTogether([opening("Part"), *some]))
    head = st.just("Head").map(heading)
    return st.one_of(plain, several, head, high.map(CondPageBreak), st.builds(PageBreak))


def _table(rows: int) -> Flowable:
    cells = [[text("Head"), text("Head")], *([text(f"row {row}"), text("words " * row)] for row in range(rows))]
    return ruled(cells, [40 * mm, 40 * mm], *headed(), between(1), heads=1)


@settings(max_examples=60, deadline=None)
@given(st.lists(parts(), min_size=1, max_size=8))
def test_no_story_comes_out_on_fewer_sheets_than_it_is_judged_to_need(story: list[Flowable]) -> None:
    assert fewest_sheets(story, *ROOM.inner) <= max(1, len(lay(story, ROOM).sheets))


def test_a_break_is_judged_to_be_made_only_where_less_room_is_left_than_it_asks_for() -> None:
    for asked, sheets in ((41 * mm, 1), (43 * mm, 2)):
        story = [Spacer(0, 40 * mm), CondPageBreak(asked), Spacer(0, 41 * mm)]
        assert fewest_sheets(story, *ROOM.inner) == len(lay(story, ROOM).sheets) == sheets


def test_a_story_that_is_torn_anywhere_is_judged_to_the_sheet() -> None:
    story = [text(WORDS, BODY), text(WORDS, BODY), text(WORDS, BODY), text(WORDS, BODY)]
    assert fewest_sheets(story, *ROOM.inner) == len(lay(story, ROOM).sheets) == 3
