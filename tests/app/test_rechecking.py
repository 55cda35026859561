"""A quotation held against today: what moved is told, nothing is altered, and the desk's table says what to do."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from app.domain.errors import Frozen, NotFound
from app.domain.quotations.quotation import DeliveryPlace, ExtraSold, Reply
from app.domain.quotations.then_and_now import Priced, RuleRow, ThenAndNow
from app.services.books import publishing, tools
from app.services.quotations import quoting, rechecking, settling
from app.services.quotations.rechecking import Rechecked
from demo.loading import BOOK
from rules.model import ToolCondition
from tests.app.desk import CLERK, LINDENHOF, MANAGER, NOW, S3_ROADSTER, Desk

FOUR_LINK = {**S3_ROADSTER, "suspension": "four-link", "bonnet": "raised", "delivery": "van"}
PLAIN = {**S3_ROADSTER, "delivery": "van"}
LATER = NOW + timedelta(days=5)


def recheck(desk: Desk, number: str, letter: str = "A", at: timedelta = timedelta(days=5)) -> Rechecked:
    return rechecking.recheck(desk.store, CLERK, number, letter, NOW + at)


def found(desk: Desk, number: str, letter: str = "A") -> ThenAndNow:
    held = recheck(desk, number, letter).found
    assert held is not None
    return held


def publish(desk: Desk, *changes: tuple[str, str]) -> None:
    text = BOOK.read_text(encoding="utf-8")
    for was, becomes in changes:
        assert text.count(was) == 1
        text = text.replace(was, becomes)
    publishing.publish_book(desk.store, MANAGER, text, NOW + timedelta(days=1))


def break_tool(desk: Desk) -> None:
    back = date(2026, 11, 30)
    tools.set_tool(
        desk.store, MANAGER, "four-link-tool", ToolCondition.DOWN, LATER, until=back, note="Cracked.", expected=4
    )


def test_nothing_moved_is_told_as_nothing(desk: Desk) -> None:
    number = desk.drafted((FOUR_LINK, 1))
    desk.issue(number)
    held = found(desk, number)
    assert (held.moved, held.lines[0].answers, recheck(desk, number).advice) == (False, (), ())
    assert [row.id for row in held.lines[0].prices] == [
        "body.roadster",
        "suspension.four-link",
        "bonnet.raised",
        "packing.dolly",
        "delivery.van",
    ]


def test_a_tool_that_broke_since_is_flagged_on_what_is_out(desk: Desk) -> None:
    number = desk.drafted((FOUR_LINK, 1))
    before = desk.issue(number)
    break_tool(desk)
    (line,) = found(desk, number).lines
    assert RuleRow("four-link-tool", "tools", False, True) in line.rules
    assert recheck(desk, number).advice == ("tightened",)
    assert desk.revision(number).frozen == before.frozen


def test_a_tool_that_is_back_is_told_as_looser(desk: Desk) -> None:
    break_tool(desk)
    number = desk.drafted((FOUR_LINK, 1), at=LATER)
    desk.issue(number, at=LATER)
    tools.set_tool(desk.store, MANAGER, "four-link-tool", ToolCondition.OK, LATER, note="Mended.", expected=5)
    held = recheck(desk, number, at=timedelta(days=6))
    assert held.advice == ("loosened",)


def test_a_lower_price_is_the_manager_s_choice(desk: Desk) -> None:
    number = desk.drafted((PLAIN, 1), extras=(ExtraSold("photo-book", 2),))
    desk.issue(number)
    publish(desk, ("11 850", "11 500"))
    held = found(desk, number)
    (row,) = [row for row in held.lines[0].prices if row.moved]
    assert (row.id, row.before, row.after) == (
        "body.roadster",
        Priced(11_850_00, 11_850_00),
        Priced(11_500_00, 11_500_00),
    )
    assert [row.moved for row in held.extras] == [False]
    assert recheck(desk, number).advice == ("cheaper",)


def test_after_the_yes_the_price_is_locked(desk: Desk) -> None:
    number = desk.drafted((PLAIN, 1))
    issued = desk.issue(number)
    settling.accept(desk.store, CLERK, number, "A", Reply(NOW, "Agnes"), NOW, expected=issued.version)
    publish(desk, ("11 850", "12 500"))
    assert recheck(desk, number).advice == ("locked",)


def test_a_line_that_is_priced_no_longer_is_never_nought(desk: Desk) -> None:
    number = desk.drafted((PLAIN, 1))
    desk.issue(number)
    publish(desk, ("| 285 |  |     |", "|     |  |     |"))
    held = found(desk, number)
    (row,) = [row for row in held.lines[0].prices if row.moved]
    assert (row.id, row.after) == ("delivery.van", Priced(None, None))
    assert (held.lines[0].net.after, held.sums.after) == (None, None)


def test_a_copy_is_held_against_the_trade_terms_it_was_quoted_at(desk: Desk) -> None:
    chosen = {**S3_ROADSTER, "market": "europe", "packing": "frame", "delivery": "port"}
    place = DeliveryPlace("DE")
    number = desk.drafted((chosen, 1), who=LINDENHOF, price_list="EUR", place=place)
    desk.issue(number, who=LINDENHOF)
    with desk.store.writing() as db:
        db.execute("UPDATE trade_terms SET percent = '10' WHERE dealer = 'lindenhof' AND category = 'A'")
    quoting.next_revision(desk.store, LINDENHOF, number, LATER)
    held = rechecking.recheck(desk.store, LINDENHOF, number, "B", LATER).found
    assert held is not None
    (body,) = [row for row in held.lines[0].prices if row.id == "body.roadster"]
    assert (body.before, body.after) == (Priced(14_200_00, 12_496_00), Priced(14_200_00, 12_780_00))


def test_only_a_draft_is_told_that_it_was_seen(desk: Desk) -> None:
    number = desk.drafted((PLAIN, 1))
    with pytest.raises(NotFound):
        rechecking.see(desk.store, CLERK, number, "A", 1, 99, LATER)
    desk.issue(number)
    with pytest.raises(Frozen):
        rechecking.see(desk.store, CLERK, number, "A", 1, 4, LATER)
