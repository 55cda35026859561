"""Case 25, the recovered tunnel that fails, whole and to the day. Sums and days were worked out by hand (cases.md).

Public holidays of England come from the PyPI package `holidays`.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import pytest

from app import calendar
from app.domain.errors import PartBarred, ShellStopped, SlotBarred
from app.domain.floor.shell import ShellState
from app.domain.part import Choice, PartAct, PartStands
from app.domain.quotations.quotation import Reply
from app.services.floor import building
from app.services.floor.signing import Signature
from app.services.letters import writing_failed
from app.services.orders import confirming, ordering
from app.services.parts import failing, recording_receipt, taking_in
from app.services.parts.failing import Wish
from app.services.planning import promising
from app.services.quotations import quoting, settling
from app.services.quotations.tagging import Tag
from tests.app.desk import CLERK, Desk
from tests.app.test_building import CHEAP, CODES, LEAD, workshop  # noqa: F401 - a fixture
from tests.app.test_confirming import LATER, accepted, pay, through
from tests.documents.reading import faults, whole
from tests.documents.test_photograph import file

S1_OWN_TUNNEL = {"series": "s1", "market": "home", "body": "roadster", "scuttle": "plain", "tunnel": "narrow"}
#: Fri 11 Dec 2026, at half past two.
CAME = datetime(2026, 12, 11, 14, 30, tzinfo=UTC)
SLOT = date(2027, 1, 11)


def ordered(desk: Desk, count: int = 1) -> tuple[str, Tag]:
    """An order with its slot on Mon 11 Jan 2027, and the tag of the (first) tunnel."""
    order = accepted(desk, S1_OWN_TUNNEL, count)
    pay(desk, order)
    through(desk, order)
    for place in range(1, count + 1):
        move(desk, order, SLOT + timedelta(days=place - 1), LATER, place)
    quotation = ordering.order(desk.store, CLERK, order, CAME).quotation
    return order, Tag(quotation, 1, 1, "P1")


def move(desk: Desk, order: str, day: date | None, at: datetime, place: int = 1) -> None:
    asked = (desk.store, CLERK, order, place, day, False)
    token = promising.propose(*asked, calendar.around, at).token
    promising.move(*asked, token, calendar.around, at)


def came(desk: Desk, tag: Tag, at: datetime = CAME) -> None:
    taking_in.arrive(desk.store, LEAD, tag, at.date(), "On a pallet.", at)
    taking_in.add_photograph(desk.store, LEAD, tag, file("PNG", (64, 48)), "Left flange", at)


def judge(desk: Desk, tag: Tag, *answers: taking_in.Answer, passed: bool, at: datetime = CAME, why: str = "") -> None:
    signature = Signature("oona", CODES["oona"], "10.0.0.1", CHEAP)
    taking_in.judge(desk.store, LEAD, tag, passed, answers, why, signature, at)


SOUND = ((True, None), (None, Decimal("1.4")))
PERFORATED = ((False, None), (None, Decimal("1.4")))


def held(desk: Desk, order: str, at: datetime = CAME) -> promising.Shown:
    (shell,) = promising.order_dates(desk.store, CLERK, order, calendar.around, at).shells
    return shell


def test_passed_on_11_december_it_would_have_given_6_january(workshop: Desk) -> None:  # noqa: F811
    order, tag = ordered(workshop)
    came(workshop, tag)
    judge(workshop, tag, *SOUND, passed=True)
    shell = held(workshop, order)
    (gate,) = [due.gate for due in shell.due if due.gate.name == "parts"]
    assert (gate.opened, gate.day) == (True, date(2026, 12, 11))
    move(workshop, order, date(2027, 1, 6), CAME)
    with pytest.raises(SlotBarred):
        move(workshop, order, date(2027, 1, 5), CAME)


def test_case_25_a_recovered_tunnel_fails(workshop: Desk) -> None:  # noqa: F811
    desk = workshop
    order, tag = ordered(desk)
    confirming.confirm(desk.store, CLERK, order, calendar.around, CAME)
    came(desk, tag)
    judge(desk, tag, *PERFORATED, passed=False)

    # The receipt record: picture, limit, measured, fail; the shell is on hold at the customer's part.
    part = taking_in.part(desk.store, CLERK, tag, CAME)
    assert part.last is not None
    assert part.last.verdict is not None
    assert [(one.met, one.measured) for one in part.last.verdict.findings] == [(False, None), (True, Decimal("1.4"))]
    assert (part.stands, part.last.verdict.signed, len(part.last.photographs)) == (PartStands.FAILED, "oona", 1)
    found = ordering.order(desk.store, CLERK, order, CAME)
    assert (found.state, [shell.failed for shell in found.shells]) == (ShellState.ON_HOLD, [("P1",)])
    with pytest.raises(ShellStopped) as refused:
        building.release(desk.store, LEAD, found.shells[0].id, CAME)
    assert "part-failed.P1" in [fault.path for fault in refused.value.faults]

    # The slot is its own until somebody who was asked agrees.
    shell = held(desk, order)
    assert shell.kept is not None
    assert shell.kept.promise.slot == SLOT

    # Another tunnel: earliest framing by the day on which it passes.
    framing = {}
    for day in (date(2027, 1, 4), date(2027, 1, 18)):
        second = failing.ways_on(desk.store, CLERK, tag, day, calendar.around, CAME).second
        assert second.dates is not None
        assert second.dates.promise is not None
        framing[day] = (second.dates.earliest, second.dates.promise.slot, second.dates.keeps)
    assert framing == {
        date(2027, 1, 4): (date(2027, 1, 25), date(2027, 1, 25), False),
        date(2027, 1, 18): (date(2027, 2, 8), date(2027, 2, 8), False),
    }

    # The wide tunnel, with money, and with the slot that it has.
    ways = failing.ways_on(desk.store, CLERK, tag, None, calendar.around, CAME)
    (wide,) = ways.instead
    assert (wide.option, wide.choice, wide.currency) == ("tunnel", "wide", "GBP")
    assert (wide.net, wide.tax, wide.payable) == (-640_00, -128_00, -768_00)
    assert wide.dates is not None
    assert (wide.dates.earliest, wide.dates.keeps) == (date(2026, 12, 18), True)

    # He sends another; the slot is moved as it was shown, by somebody's word.
    failing.choose(desk.store, CLERK, tag, Wish(Choice.SECOND, day=date(2027, 1, 4)), calendar.around, CAME)
    kept = held(desk, order)
    assert kept.kept is not None
    assert (kept.kept.promise.slot, kept.adrift) == (SLOT, True)
    move(desk, order, date(2027, 1, 25), CAME)

    # The failed one stays the customer's: tagged, kept, sent back, each with its day; the second passes.
    second_came = datetime(2027, 1, 4, 9, tzinfo=UTC)
    for what, note in ((PartAct.TAGGED, ""), (PartAct.KEPT, "Rack 4"), (PartAct.RETURNED, "With the carrier")):
        taking_in.act(desk.store, CLERK, tag, what, second_came.date(), note, second_came)
    came(desk, tag, second_came)
    judge(desk, tag, *SOUND, passed=True, at=second_came)
    part = taking_in.part(desk.store, CLERK, tag, second_came)
    assert [one.stands for one in part.arrivals] == [PartStands.FAILED, PartStands.PASSED]
    assert [one.act for one in part.arrivals[0].acts] == [PartAct.TAGGED, PartAct.KEPT, PartAct.RETURNED]
    shell = held(desk, order, second_came)
    assert shell.kept is not None
    assert (shell.kept.promise.slot, shell.adrift) == (date(2027, 1, 25), False)
    assert ordering.order(desk.store, CLERK, order, second_came).state is ShellState.PLANNED


def test_the_other_choice_is_the_next_draft_and_once_it_is_accepted_no_part_holds_the_shell(
    workshop: Desk,  # noqa: F811
) -> None:
    desk = workshop
    order, tag = ordered(desk, count=2)
    came(desk, tag)
    judge(desk, tag, *PERFORATED, passed=False)
    (wide,) = failing.ways_on(desk.store, CLERK, tag, None, calendar.around, CAME).instead
    assert wide.payable == -768_00
    wish = Wish(Choice.INSTEAD, option="tunnel", instead="wide")
    failing.choose(desk.store, CLERK, tag, wish, calendar.around, CAME)
    revision = quoting.quotation(desk.store, CLERK, tag.quotation, CAME).revisions[-1]
    told = [(line.quantity, line.specification.choices()["tunnel"]) for line in revision.lines]
    assert (revision.letter, told) == ("B", [(1, "wide"), (1, "narrow")])
    quoting.issue(desk.store, CLERK, tag.quotation, "B", CAME, expected=revision.version, replaces_yes=True)
    version = desk.revision(tag.quotation, "B", at=CAME).version
    settling.accept(desk.store, CLERK, tag.quotation, "B", Reply(CAME, "Agnes"), CAME, expected=version)
    assert [shell.failed for shell in ordering.order(desk.store, CLERK, order, CAME).shells] == [(), ()]
    parts = {one.seat.place: one for one in taking_in.parts_of(desk.store, CLERK, order, calendar.around, CAME)}
    assert {place: (one.needed, one.stands) for place, one in parts.items()} == {
        1: (False, PartStands.FAILED),
        2: (True, PartStands.EXPECTED),
    }
    # The second shell's tag of revision A named it as line 1, piece 2; B tags it as 2.1.
    for printed in ((1, 2), (2, 1)):
        assert taking_in.part(desk.store, CLERK, Tag(tag.quotation, *printed, "p1"), CAME).seat.place == 2


def test_nothing_is_chosen_of_a_part_that_did_not_fail(workshop: Desk) -> None:  # noqa: F811
    _, tag = ordered(workshop)
    with pytest.raises(PartBarred):
        failing.ways_on(workshop.store, CLERK, tag, None, calendar.around, CAME)
    came(workshop, tag)
    with pytest.raises(PartBarred):
        failing.choose(workshop.store, CLERK, tag, Wish(Choice.CANCEL), calendar.around, CAME)


def test_the_letter_says_what_was_found_and_every_way_on_with_money_and_dates(workshop: Desk) -> None:  # noqa: F811
    _, tag = ordered(workshop)
    came(workshop, tag)
    judge(workshop, tag, (False, None), (None, Decimal("3.1")), passed=False, why="Rust from inside.")
    ways = failing.ways_on(workshop.store, CLERK, tag, date(2027, 1, 4), calendar.around, CAME)
    text = writing_failed.letter_of(workshop.store, CLERK, ways).text.replace("\xa0", " ")
    for said in (
        "– No perforation anywhere. Not met.",
        "– Flange flat within 2 mm. We measured 3.1 mm.",
        "– Rust from inside.",
        "The slot of 11 January 2027 on the framing jig stays yours",
        "If it passes on 4 January 2027, it can come to the framing jig on 25 January 2027 at the earliest.",
        "– Another choice instead (Tunnel: Wide): £768.00 less with tax (£640.00 before tax, £128.00 of tax).",
        "– Cancel this shell.",
    ):
        assert said in text


@pytest.mark.parametrize(("language", "size"), [("en", "a4"), ("de", "letter")])
def test_the_receipt_record_has_each_limit_with_what_was_found_and_no_price(
    workshop: Desk,  # noqa: F811
    language: str,
    size: str,
) -> None:
    _, tag = ordered(workshop)
    came(workshop, tag)
    judge(workshop, tag, *PERFORATED, passed=False)
    pdf = recording_receipt.receipt(workshop.store, LEAD, tag, 1, language, size, CAME)
    text = whole(pdf).replace("\xa0", " ")
    told = {
        "en": (
            tag.number,
            "No perforation anywhere.",
            "NO",
            "1.4 mm",
            "FAILED",
            "Signed by Oona Reyes",
            "11 December 2026",
        ),
        "de": (tag.number, "Keine Durchrostung, nirgends.", "NEIN", "1,4 mm", "NICHT BESTANDEN", "Oona Reyes"),
    }
    for said in told[language]:
        assert said in text
    assert "£" not in text
    assert faults(pdf) == []
