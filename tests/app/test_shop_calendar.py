"""The calendar shows the plan as it is: shells in their stages, changeovers, how full the weeks are, closed days."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from io import BytesIO

import pytest
from pypdf import PdfReader

from app import calendar
from app.domain.errors import BadInput
from app.services.books import tools
from app.services.planning import promising
from app.services.planning.drawing_up_plan import calendar_pdf
from app.services.planning.shop_calendar import Row, ShopCalendar, shop_calendar
from rules.model import ToolCondition
from tests.app.desk import CLERK, MANAGER, S3_ROADSTER, Desk
from tests.app.test_ordering import LATER, S3_COUPE
from tests.app.test_promising import TODAY, clear, kept, paid


def shown(desk: Desk, first: date | None = None, weeks: int = 6) -> ShopCalendar:
    return shop_calendar(desk.store, CLERK, first, weeks, calendar.around, LATER)


def row(plan: ShopCalendar, stage: str) -> Row:
    return next(one for one in plan.rows if one.stage.id == stage)


def test_a_shell_with_a_slot_is_a_ticket_at_its_stages_and_one_without_is_none(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    assert shown(desk).tickets == ()
    clear(desk, number)
    (ticket,) = shown(desk).tickets
    assert (ticket.seat.number, ticket.promise) == (number, kept(desk, number))
    assert [(visit.stage, visit.start) for visit in ticket.visits][:3] == [
        ("sub-assembly", date(2026, 11, 3)),
        ("framing", date(2026, 11, 10)),
        ("rollover", date(2026, 11, 12)),
    ]
    assert [due.gate.name for due in ticket.waits] == ["specification"]
    assert (ticket.begun, ticket.late) == (False, False)


def test_the_rows_are_the_stages_that_take_only_so_much(desk: Desk) -> None:
    plan = shown(desk)
    assert [(one.stage.id, one.is_slot) for one in plan.rows] == [
        ("framing", True),
        ("rollover", False),
        ("fit-and-gap", False),
        ("paint", False),
    ]
    week = row(plan, "framing").loads[0]
    assert (week.used, week.takes, week.line) == (Decimal(0), Decimal(3), Decimal("2.55"))
    assert row(plan, "fit-and-gap").loads[0].takes == 15


def test_a_changeover_costs_half_a_slot_of_the_week_and_counts_against_the_shell_before_it(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1), (S3_COUPE, 1))
    clear(desk, number)
    framing = row(shown(desk), "framing")
    (change,) = framing.changes
    assert (change.slots, change.seat.place, change.behind) == (Decimal("0.5"), 1, True)
    assert sum(load.used for load in framing.loads) == Decimal("2.5")


def test_a_gate_that_comes_after_the_slot_makes_the_shell_late(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    day = TODAY + timedelta(days=21)
    promising.say_gate(desk.store, CLERK, number, 0, ("specification", ""), day, calendar.around, LATER)
    assert [ticket.late for ticket in shown(desk).tickets] == [True]


def test_a_tool_that_is_down_stands_above_the_rows(desk: Desk) -> None:
    number = tools.tool_states(desk.store).number
    until = date(2026, 12, 1)
    tools.set_tool(
        desk.store, MANAGER, "roadster-deck", ToolCondition.DOWN, LATER, note="Worn.", until=until, expected=number
    )
    assert [(one.tool, one.until) for one in shown(desk).down] == [("roadster-deck", until)]


def test_closures_and_public_holidays_are_named_apart(desk: Desk) -> None:
    """England's own: Christmas Day 2026 is a Friday, Boxing Day's substitute the Monday after (holidays, PyPI)."""
    december = shown(desk, date(2026, 12, 23), 2).closed
    assert [(one.day, one.closure) for one in december] == [
        (date(2026, 12, 25), None),
        (date(2026, 12, 28), None),
        (date(2027, 1, 1), None),
    ]
    august = shown(desk, date(2027, 8, 2), 2).closed
    assert len(august) == 10
    assert {one.closure.label["en"] for one in august if one.closure} == {"Summer closure"}


def test_beyond_the_known_holidays_nothing_is_shown(desk: Desk) -> None:
    with pytest.raises(BadInput):
        shown(desk, date(2060, 1, 5))


@pytest.mark.parametrize(
    ("language", "words"),
    [
        ("en", ("Calendar of the shop", "Week 46", "3 a week, planned to 85%", "Solid edge: Coupé.", "Roadster")),
        ("de", ("Kalender der Werkstatt", "Woche 46", "3 je Woche, geplant zu 85 %", "Volle Kante: Coupé.")),
    ],
)
def test_the_calendar_fills_one_sheet_of_a3_in_the_reader_s_language(
    desk: Desk, language: str, words: tuple[str, ...]
) -> None:
    """ISO 216: A3 is 420 by 297 mm; a point is 1/72 inch."""
    number = paid(desk, (S3_ROADSTER, 1), (S3_COUPE, 1))
    clear(desk, number)
    reader = PdfReader(BytesIO(calendar_pdf(desk.store, CLERK, None, 13, language, calendar.around, LATER)))
    (page,) = reader.pages
    assert [round(float(side) * 25.4 / 72) for side in page.mediabox[2:]] == [420, 297]
    text = " ".join(page.extract_text().split())
    assert [word for word in (*words, f"{number[-5:]}/1") if word not in text] == []
    assert "£" not in text
