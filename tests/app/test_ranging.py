"""The quotation's paper says the range that the screen says: with the slots of its day, and what binds."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from io import BytesIO

from pypdf import PdfReader

from app import calendar
from app.domain.quotations.quotation import Foreseen
from app.services.answering.specifying import Asked
from app.services.planning import dating
from app.services.quotations import handing_out, quoting
from rules.schedule.promise import Binds
from rules.specification import Donor
from tests.app.desk import CLERK, S3_ROADSTER, Desk
from tests.app.test_ordering import LATER, S3_COUPE
from tests.app.test_promising import clear, paid, shells


def issued(desk: Desk, *lines: tuple[dict[str, str], int]) -> tuple[str, list[Foreseen | None]]:
    number = desk.drafted(*lines)
    version = desk.revision(number).version
    revision = quoting.issue(
        desk.store, CLERK, number, "A", LATER, expected=version, draw=False, working=calendar.around
    )
    return number, [line.frozen.foreseen for line in revision.lines if line.frozen]


def words(desk: Desk, number: str, language: str) -> str:
    pdf = handing_out.paper(desk.store, CLERK, number, "A", language, "a4", LATER)
    return " ".join(PdfReader(BytesIO(pdf)).pages[0].extract_text().split())


def test_the_paper_says_what_the_next_deposit_would_be_promised(desk: Desk) -> None:
    for number in [paid(desk, (S3_ROADSTER, 1)) for _ in range(4)]:
        clear(desk, number)
    number, (range_,) = issued(desk, (S3_ROADSTER, 1))
    assert range_ is not None
    next_one = paid(desk, (S3_ROADSTER, 1))
    promised = shells(desk, next_one)[0].now
    assert promised is not None
    assert (range_.ready, range_.ready_by) == (promised.ready, promised.ready_by)
    assert range_.binds == promised.bindings[0]
    assert range_.binds.kind is Binds.CAPACITY


def test_what_was_said_at_issue_is_printed_in_every_language_however_the_slots_go(desk: Desk) -> None:
    number, (range_,) = issued(desk, (S3_ROADSTER, 1))
    assert range_ is not None
    assert (range_.ready, range_.ready_by) == (date(2026, 12, 9), date(2026, 12, 23))
    for taken in [paid(desk, (S3_ROADSTER, 1)) for _ in range(3)]:
        clear(desk, taken)
    assert "Between 9 December 2026 and 23 December 2026 (calendar weeks 50 to 52)." in words(desk, number, "en")
    german = words(desk, number, "de")
    assert "Zwischen dem 9. Dezember 2026 und dem 23. Dezember 2026 (Kalenderwochen 50 bis 52)." in german


def test_several_shells_are_planned_one_behind_the_other(desk: Desk) -> None:
    _, (roadsters, coupe) = issued(desk, (S3_ROADSTER, 3), (S3_COUPE, 1))
    assert roadsters is not None
    assert coupe is not None
    assert roadsters.ready == date(2026, 12, 9)
    assert roadsters.ready < roadsters.ready_by < coupe.ready_by


def test_form_and_order_say_of_several_shells_what_the_paper_says_and_the_deposit_brings(desk: Desk) -> None:
    """Six roadsters don't all stand in the slot that is free next: three go through the jig in a week."""
    number, (range_,) = issued(desk, (S3_ROADSTER, 6))
    assert range_ is not None
    (line,) = desk.revision(number, at=LATER).lines
    asked = Asked(
        line.specification, Donor(), price_list="GBP", delivery_country="GB", customer_country="GB", quantity=6
    )
    on_the_form = dating.date_specification(desk.store, CLERK, asked, calendar.around, LATER).promise
    assert on_the_form is not None
    assert (on_the_form.ready, on_the_form.ready_by) == (range_.ready, range_.ready_by)
    many = replace(asked, quantity=dating.MOST_DATED + 1)
    assert dating.date_specification(desk.store, CLERK, many, calendar.around, LATER).promise is None
    order = paid(desk, (S3_ROADSTER, 6))
    before = [shell.now and shell.now.slot for shell in shells(desk, order)]
    clear(desk, order)
    after = [shell.kept and shell.kept.promise.slot for shell in shells(desk, order)]
    assert before == after
    assert len(set(after)) > 1


def test_without_a_calendar_no_day_is_named(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number)
    assert desk.revision(number).lines[0].frozen.foreseen is None  # type: ignore[union-attr]
    assert "working days after the last of these" in words(desk, number, "en")


def test_the_second_line_is_planned_behind_the_first(desk: Desk) -> None:
    _, (first, second) = issued(desk, (S3_ROADSTER, 1), (S3_ROADSTER, 1))
    assert first is not None
    assert second is not None
    assert (first.ready, second.ready) == (date(2026, 12, 9), date(2026, 12, 10))
