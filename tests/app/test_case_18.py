"""Case 18: a South African export that is paid for too early. The slot is an input: the case gives its day."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from app import calendar
from app.domain.asking.people import Person, Role
from app.domain.money.export import ExportLimit
from app.domain.money.payment import Direction, Entry, Means
from app.domain.quotations.quotation import DeliveryPlace, Reply
from app.services.despatch import exporting
from app.services.money import receiving
from app.services.orders import ordering
from app.services.planning import promising
from app.services.quotations import settling
from app.wording import say
from tests.app.desk import CLERK, Desk

THEMBA = Person("themba", "Themba Kroll", Role.DEALER, "karoo-road")
ISSUED = datetime(2026, 12, 14, 10, tzinfo=UTC)
PAID = datetime(2027, 1, 4, 10, tzinfo=UTC)
PAINTED_COUPE = {
    "body": "coupe",
    "market": "southern-africa",
    "series": "s3",
    "finish": "painted",
    "primer": "epoxy-and-filler",
    "scope": "outside",
    "colour": "oat",
    "packing": "crate",
    "delivery": "port",
}


def ordered(desk: Desk) -> str:
    place, wish = DeliveryPlace("ZA"), desk.wish("Karoo Road Restorations", country="ZA")
    number = desk.drafted((PAINTED_COUPE, 1), who=THEMBA, wish=wish, place=place, at=ISSUED)
    desk.issue(number, who=THEMBA, at=ISSUED)
    settling.accept(desk.store, THEMBA, number, "A", Reply(ISSUED, "Themba Kroll"), ISSUED, expected=3)
    return ordering.order_of(desk.store, CLERK, number)


def dates(desk: Desk, order: str) -> promising.OrderDates:
    return promising.order_dates(desk.store, CLERK, order, calendar.around, PAID)


def framed_on_22_february(desk: Desk, order: str) -> None:
    promising.say_gate(desk.store, CLERK, order, 0, ("specification", ""), date(2026, 12, 16), calendar.around, PAID)
    promising.say_gate(desk.store, CLERK, order, 0, ("deposit", ""), date(2027, 1, 4), calendar.around, PAID)
    asked = (desk.store, CLERK, order, 1, date(2027, 2, 22), False)
    token = promising.propose(*asked, calendar.around, PAID).token
    promising.move(*asked, token, calendar.around, PAID)


def test_case_18_money_paid_in_full_on_4_january_it_leaves_after_the_export_limit(desk: Desk) -> None:
    order = ordered(desk)
    case = dates(desk, order).order.frozen.totals.cases[0]
    assert (case.sum.payable, case.sum.tax) == (16_214_50, 0)
    entry = Entry(Direction.RECEIVED, 16_214_50, "GBP", date(2027, 1, 4), Means.BANK_TRANSFER)
    receiving.record(desk.store, CLERK, order, entry, PAID)
    framed_on_22_february(desk, order)
    limit = exporting.export_limit(desk.store, CLERK, dates(desk, order))
    assert limit == ExportLimit(date(2027, 1, 4), False, date(2027, 4, 26), date(2027, 5, 11))
    assert (limit.due, limit.missed) == (date(2027, 4, 4), True)
    assert exporting.export_limit(desk.store, THEMBA, dates(desk, order)) is None
    for language, words in (("en", "leaves after the export limit"), ("de", "nach der Ausfuhrfrist")):
        assert words in say("export-limit.missed", language)
    assert "ask the accountant before banking it" in say("export-limit.missed", "en")


def test_before_it_is_paid_in_full_it_is_asked_what_today_would_mean(desk: Desk) -> None:
    order = ordered(desk)
    entry = Entry(Direction.RECEIVED, 4_053_63, "GBP", date(2027, 1, 4), Means.BANK_TRANSFER)
    receiving.record(desk.store, CLERK, order, entry, PAID)
    framed_on_22_february(desk, order)
    limit = exporting.export_limit(desk.store, CLERK, dates(desk, order))
    assert limit is not None
    assert (limit.supposed, limit.paid, limit.missed) == (True, date(2027, 1, 4), True)


@pytest.mark.parametrize(
    ("ready", "ready_by", "missed", "at_risk"),
    [
        (date(2027, 4, 5), date(2027, 4, 19), True, True),
        (date(2027, 4, 4), date(2027, 4, 16), False, True),
        (date(2027, 3, 20), date(2027, 4, 4), False, False),
    ],
)
def test_the_last_day_is_still_in_time(ready: date, ready_by: date, missed: bool, at_risk: bool) -> None:
    limit = ExportLimit(date(2027, 1, 4), False, ready, ready_by)
    assert (limit.missed, limit.at_risk) == (missed, at_risk)


def test_a_month_that_is_shorter_ends_the_limit_on_its_last_day() -> None:
    assert ExportLimit(date(2026, 11, 30), False, date(2027, 1, 1), date(2027, 1, 1)).due == date(2027, 2, 28)
