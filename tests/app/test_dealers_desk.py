"""A dealer copies, orders for his own stock, asks the office for a formal quotation, and follows what is on order."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

import pytest

from app import calendar
from app.domain.errors import BadInput, Frozen, KeyReused, NotFound, NothingToIssue, RequestEnded, RequestStands
from app.domain.floor.shell import ShellState
from app.domain.quotations.quotation import Quotation, Reply, Standing
from app.domain.quotations.request import Stage
from app.services.customers import erasing
from app.services.money import accounts
from app.services.once import Once
from app.services.orders import following, ordering
from app.services.quotations import copying, quoting, requesting, settling
from app.services.quotations.enquiring import enquiry
from tests.app.desk import BAYOU, CLERK, HOLLIN, MANAGER, NOW, S3_ROADSTER, Desk

HOUR = timedelta(hours=1)


def stock_order(desk: Desk, once: Once | None = None) -> Quotation:
    """Hollin Lane's copy × 3 for stock of a roadster that a customer of his asked about."""
    seen = desk.drafted((S3_ROADSTER, 1), who=HOLLIN, wish=desk.wish("Ivo Thackwell"))
    return copying.copy(desk.store, HOLLIN, seen, "A", NOW, for_stock=True, quantity=3, once=once)


def test_copy_times_three_for_stock_becomes_one_order_of_three_shells_as_in_case_13(desk: Desk) -> None:
    number = stock_order(desk).number
    desk.issue(number, who=HOLLIN)
    said = (desk.store, HOLLIN, number, "A", Reply(NOW, "Nell Arkwell"), NOW)
    once = Once("a-key-of-his", "nell", "the same")
    settling.accept(*said, expected=3, once=once)
    settling.accept(*said, expected=3, once=once)  # pressed twice
    (row,) = ordering.orders(desk.store, HOLLIN).rows
    order = ordering.order(desk.store, HOLLIN, row.number, NOW)
    assert [shell.place for shell in order.shells] == [1, 2, 3]
    assert order.frozen.donor.number_text == ""
    (case,) = order.frozen.totals.cases
    assert (case.sum.without_tax, case.sum.payable, case.deposit) == (30_030_96, 36_037_15, 9_009_29)


def test_a_stock_copy_is_the_dealers_own_and_his_house_is_known_again(desk: Desk) -> None:
    first, second = stock_order(desk), stock_order(desk)
    bought = [enquiry(desk.store, HOLLIN, one.enquiry).customer for one in (first, second)]
    assert bought[0] == bought[1]
    assert (bought[0].name, bought[0].trade) == ("Hollin Lane Classics", True)


def test_copying_twice_with_one_key_copies_once(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1), who=HOLLIN)
    once = Once("a-key-of-his", "nell", "the same")
    copies = [copying.copy(desk.store, HOLLIN, number, "A", NOW, once=once).number for _ in range(2)]
    assert copies[0] == copies[1] != number
    with pytest.raises(KeyReused):
        copying.copy(desk.store, HOLLIN, number, "A", NOW, once=Once("a-key-of-his", "nell", "another"))


def test_a_copy_beside_it_is_for_the_same_enquiry_and_as_many(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 2), who=HOLLIN)
    desk.issue(number, who=HOLLIN)
    made = copying.copy(desk.store, HOLLIN, number, "A", NOW)
    (draft,) = made.revisions
    before = desk.revision(number, who=HOLLIN)
    assert (draft.standing, draft.lines[0].quantity) == (Standing.DRAFT, 2)
    assert draft.lines[0].specification == before.lines[0].specification
    assert made.enquiry == quoting.quotation(desk.store, HOLLIN, number, NOW).enquiry


def test_only_a_dealers_is_copied_for_stock_and_nobody_copies_anothers(desk: Desk) -> None:
    own = desk.drafted((S3_ROADSTER, 1))
    with pytest.raises(BadInput) as refused:
        copying.copy(desk.store, CLERK, own, "A", NOW, for_stock=True)
    assert [fault.code for fault in refused.value.faults] == ["not-a-dealers"]
    with pytest.raises(NotFound):
        copying.copy(desk.store, BAYOU, own, "A", NOW)


def test_the_office_answers_a_request_by_issuing_what_was_asked_for(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 2), who=HOLLIN, wish=desk.wish("Ivo Thackwell"))
    requesting.ask(desk.store, HOLLIN, number, "A", "His bank wants it from you.", NOW)
    (asked,) = requesting.requests(desk.store, CLERK, waiting=True).rows
    assert (asked.dealer, asked.customer, asked.note) == ("hollin-lane", "Ivo Thackwell", "His bank wants it from you.")
    assert asked.lines[0].quantity == 2
    assert asked.lines[0].specification.choices()["body"] == "roadster"
    desk.issue(number, who=CLERK, at=NOW + HOUR)
    (seen,) = requesting.of_quotation(desk.store, HOLLIN, number, NOW + HOUR)
    assert seen.end is not None
    assert (seen.stage, seen.end.by, seen.end.at) == (Stage.ANSWERED, "imogen", NOW + HOUR)
    assert requesting.requests(desk.store, CLERK, waiting=True).rows == ()


def test_what_waits_is_asked_for_once_and_can_be_asked_for_again_after_it_was_refused(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1), who=HOLLIN)
    asked = requesting.ask(desk.store, HOLLIN, number, "A", "", NOW)
    with pytest.raises(RequestStands):
        requesting.ask(desk.store, HOLLIN, number, "A", "", NOW)
    with pytest.raises(BadInput):  # the office has to say why
        requesting.take_off(desk.store, CLERK, asked.id, " ", NOW)
    refused = requesting.take_off(desk.store, CLERK, asked.id, "Which colour?", NOW)
    assert (refused.stage, refused.end and refused.end.why) == (Stage.REFUSED, "Which colour?")
    with pytest.raises(RequestEnded):
        requesting.take_off(desk.store, HOLLIN, asked.id, "", NOW)
    again = requesting.ask(desk.store, HOLLIN, number, "A", "Moss.", NOW)
    assert requesting.take_off(desk.store, HOLLIN, again.id, "", NOW).stage is Stage.WITHDRAWN


def test_requests_are_walked_page_by_page_and_nothing_that_comes_meanwhile_slips_past_or_stands_twice(
    desk: Desk,
) -> None:
    asked = [
        requesting.ask(desk.store, HOLLIN, desk.drafted((S3_ROADSTER, 1), who=HOLLIN), "A", "", NOW).id
        for _ in range(6)
    ]
    for ended in (asked[1], asked[4]):
        requesting.take_off(desk.store, HOLLIN, ended, "", NOW)
    first = requesting.requests(desk.store, CLERK, size=2)
    assert ([one.id for one in first.rows], first.next) == ([asked[0], asked[2]], (0, asked[2]))
    # meanwhile one that was read ends, and another is asked for
    requesting.take_off(desk.store, HOLLIN, asked[0], "", NOW)
    late = requesting.ask(desk.store, HOLLIN, desk.drafted((S3_ROADSTER, 1), who=HOLLIN), "A", "", NOW).id
    walked = list(walk(desk, (False, asked[2])))
    assert walked == [asked[3], asked[5], late, asked[4], asked[1], asked[0]]
    assert [one.id for one in requesting.requests(desk.store, BAYOU).rows] == []
    waiting = requesting.requests(desk.store, HOLLIN, waiting=True, size=4)
    assert ([one.id for one in waiting.rows], waiting.next) == ([asked[2], asked[3], asked[5], late], None)


def walk(desk: Desk, after: tuple[bool, int]) -> Iterator[int]:
    """What stands on the pages that follow, two a page."""
    page = requesting.requests(desk.store, CLERK, after=after, size=2)
    yield from (one.id for one in page.rows)
    if page.next is not None:
        yield from walk(desk, (bool(page.next[0]), int(page.next[1])))


def test_what_is_out_or_empty_can_t_be_asked_for_and_another_dealer_sees_nothing_of_it(desk: Desk) -> None:
    empty, out = desk.drafted(who=HOLLIN), desk.drafted((S3_ROADSTER, 1), who=HOLLIN)
    desk.issue(out, who=HOLLIN)
    with pytest.raises(NothingToIssue):
        requesting.ask(desk.store, HOLLIN, empty, "A", "", NOW)
    with pytest.raises(Frozen):
        requesting.ask(desk.store, HOLLIN, out, "A", "", NOW)
    asked = requesting.ask(desk.store, HOLLIN, desk.drafted((S3_ROADSTER, 1), who=HOLLIN), "A", "", NOW)
    assert requesting.requests(desk.store, BAYOU).rows == ()
    for deed in (
        lambda: requesting.request(desk.store, BAYOU, asked.id),
        lambda: requesting.take_off(desk.store, BAYOU, asked.id, "", NOW),
        lambda: requesting.of_quotation(desk.store, BAYOU, asked.number, NOW),
    ):
        with pytest.raises(NotFound):
            deed()


def test_what_was_written_to_a_request_goes_with_an_erased_customers_data(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1), who=HOLLIN, wish=desk.wish("Ivo Thackwell"))
    asked = requesting.ask(desk.store, HOLLIN, number, "A", "Ivo rings at nine.", NOW)
    requesting.take_off(desk.store, CLERK, asked.id, "Ivo has to sign.", NOW)
    customer = quoting.quotation(desk.store, HOLLIN, number, NOW).enquiry
    who = enquiry(desk.store, HOLLIN, customer).customer.id
    assert who is not None
    outlook = erasing.outlook(desk.store, MANAGER, who)
    erasing.erase(desk.store, MANAGER, who, "Asked for.", outlook.seen, NOW)
    left = requesting.request(desk.store, HOLLIN, asked.id)
    assert (left.note, left.end and left.end.why) == ("", "")


def test_an_open_order_says_how_its_shells_stand_when_they_are_ready_and_what_binds(desk: Desk) -> None:
    number = stock_order(desk).number
    desk.issue(number, who=HOLLIN)
    settling.accept(desk.store, HOLLIN, number, "A", Reply(NOW, "Nell"), NOW, expected=3)
    page = following.open_orders(desk.store, HOLLIN, calendar.around, NOW)
    (followed,) = page.rows
    assert followed.states == ((ShellState.PLANNED, 3),)
    shells = [shell.now for shell in followed.dates.shells]
    assert [one is not None and one.ready < one.ready_by for one in shells] == [True] * 3
    assert accounts.open_order(desk.store, HOLLIN, followed.row.number, NOW).account.deposit_met is False
    assert (following.open_orders(desk.store, BAYOU, calendar.around, NOW).rows, page.next) == ((), None)
