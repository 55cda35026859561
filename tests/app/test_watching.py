"""What was asked for and could not be built: counted once; lost tools; what was declined; what was taken off."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.domain.errors import BadInput, NotFound, UnknownNames
from app.domain.quotations.quotation import DraftLine, Reason, Reply
from app.domain.quotations.refused import Refused, Remaking, by_cause, counted, sorted_causes
from app.domain.watched import band_of, by_subject
from app.services import watching
from app.services.answering import advising
from app.services.answering.specifying import Asked
from app.services.floor import building, conceding, reworking
from app.services.floor.conceding import Asked as AskedFor
from app.services.quotations import quoting, settling
from app.store import rework
from rules.specification import Specification, Taken
from tests.app.desk import CLERK, LINDENHOF, MANAGER, NOW, S3_ROADSTER, Desk
from tests.app.test_building import INSPECTOR, LEAD, shells
from tests.app.test_confirming import LATER, confirmed_order
from tests.app.test_stocking import for_stock

#: Scenario, N1: never, since the press for the vented scuttle is lost.
S1_VENTED = {"body": "roadster", "market": "home", "series": "s1", "scuttle": "vented"}


def refused(desk: Desk, **more: str) -> str:
    """A draft that asks for the vented scuttle, and whatever more."""
    number = desk.drafted(({**S1_VENTED, **more}, 2))
    watching.note_refusals(desk.store, CLERK, number, "A", NOW)
    return number


def watched(desk: Desk, since: date | None = None, until: date | None = None) -> watching.Watched:
    return watching.watched_between(desk.store, since, until, NOW + timedelta(hours=1))


def ask_for(desk: Desk, number: str, **choices: str) -> None:
    """The draft is kept with these choices instead."""
    revision = desk.revision(number)
    line = revision.draft().lines[0]
    answers = {**line.specification.answers, **{option: Taken(choice) for option, choice in choices.items()}}
    typed = replace(revision.draft(), lines=(DraftLine(Specification(answers), line.quantity),))
    quoting.save_draft(desk.store, CLERK, number, "A", typed, NOW, expected=revision.version)


def test_a_refusal_counts_once_for_each_enquiry_and_set_of_causes(desk: Desk) -> None:
    number = refused(desk)
    assert watching.note_refusals(desk.store, CLERK, number, "A", NOW) == 0
    ask_for(desk, number, doors="early")  # another shell, the same cause
    assert watching.note_refusals(desk.store, CLERK, number, "A", NOW) == 0
    ask_for(desk, number, roof="folding")  # another set of causes
    assert watching.note_refusals(desk.store, CLERK, number, "A", NOW) == 1
    refused(desk)  # another enquiry
    found = watched(desk)
    assert (found.total.enquiries, len(found.refused)) == (2, 3)
    assert [(one.id, one.counted.enquiries) for one in found.causes] == [("N1", 2), ("N4", 1)]


def test_its_money_is_the_nearest_shell_that_can_be_built_before_tax_for_all_the_pieces(desk: Desk) -> None:
    number = refused(desk)
    (one,) = watched(desk).refused
    line = desk.revision(number).draft().lines[0]
    asked = Asked(line.specification, price_list="GBP", delivery_country="GB", customer_country="GB", quantity=2)
    offers = advising.alternatives(desk.store, CLERK, asked, None, NOW).offers
    assert (one.quotation, one.quantity, one.currency, one.net) == (number, 2, "GBP", offers[0].price.net)
    assert one.net is not None


def test_what_can_be_built_and_what_is_issued_is_no_refusal(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    assert watching.note_refusals(desk.store, CLERK, number, "A", NOW) == 0
    desk.issue(number)
    assert watching.note_refusals(desk.store, CLERK, number, "A", NOW) == 0
    assert watching.note_refusals(desk.store, CLERK, "Q-2026-09999", "A", NOW) == 0
    assert watched(desk).refused == ()


def test_a_lost_tool_is_told_what_its_rule_refused_and_what_was_quoted_on_a_customers_part(desk: Desk) -> None:
    refused(desk)
    desk.issue(desk.drafted(({"body": "coupe", "market": "home", "series": "s2", "rear-window": "small"}, 3)))
    tools = {one.tool.id: one for one in watched(desk).tools}
    assert list(tools) == ["vented-scuttle-press", "narrow-tunnel-press", "small-window-press", "bulkhead-r-na"]
    assert (tools["vented-scuttle-press"].refused.shells, tools["vented-scuttle-press"].instead) == (2, 0)
    assert (tools["small-window-press"].refused.shells, tools["small-window-press"].instead) == (0, 3)


def test_remaking_pays_back_after_the_shells_whose_margins_cover_it(desk: Desk) -> None:
    watching.say_remaking(desk.store, MANAGER, "vented-scuttle-press", 14_500_00, 650_00, "GBP", NOW)
    said = watched(desk).tools[0].remaking
    assert said is not None
    assert (said.pays_back_after, said.by) == (23, "piers")  # 22 × 650 is 14 300: not yet
    exact = Remaking("x", 1_300_00, 650_00, "GBP", NOW, "piers")
    assert exact.pays_back_after == 2
    with pytest.raises(NotFound):
        watching.say_remaking(desk.store, MANAGER, "no-such-press", 1, 1, "GBP", NOW)
    with pytest.raises(UnknownNames):
        watching.say_remaking(desk.store, MANAGER, "vented-scuttle-press", 1, 1, "CHF", NOW)


def test_a_period_has_both_its_days_where_the_firm_is(desk: Desk) -> None:
    refused(desk)
    day = NOW.date()
    assert watched(desk, day, day).total.enquiries == 1
    assert watched(desk, day - timedelta(days=9), day - timedelta(days=1)).total.enquiries == 0
    with pytest.raises(BadInput):
        watched(desk, day, day - timedelta(days=1))


def test_what_was_declined_stands_by_its_reason_with_its_money(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    frozen = desk.issue(number).frozen
    version = desk.revision(number).version
    settling.decline(desk.store, CLERK, number, "A", Reply(NOW, "She", Reason.DATE, "Too late."), NOW, expected=version)
    (one,) = watched(desk).declined
    assert frozen is not None
    assert (one.number, one.reason, one.note) == (number, Reason.DATE, "Too late.")
    assert (one.currency, one.net) == ("GBP", frozen.totals.lines_net)


def test_what_was_taken_off_adds_up_to_the_net_of_the_shells(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 3), who=LINDENHOF, price_list="EUR")
    frozen = desk.issue(number, who=LINDENHOF).frozen
    (one,) = watched(desk).discounted
    assert frozen is not None
    assert one.dealer == "lindenhof"
    assert one.off > 0
    assert one.listed - one.off == frozen.totals.lines_net


def test_rework_and_concessions_are_counted_by_where_they_came_up(desk: Desk) -> None:
    first, second = shells(desk, confirmed_order(desk, count=2))
    for shell in (first, second):
        building.release(desk.store, LEAD, shell, LATER)
        reworking.send_back(desk.store, INSPECTOR, shell, "surface", "A bead.", "sub-assembly", LATER)
    reworking.withdraw(desk.store, INSPECTOR, first, rework_of(desk, first), "None there.", LATER)
    said = conceding.ask(desk.store, LEAD, second, AskedFor("surface", "Under the mat."), LATER)
    conceding.answer(desk.store, MANAGER, second, said, True, "Nobody sees it.", LATER)
    conceding.ask(desk.store, LEAD, second, AskedFor("weld:z-deck", "One weld short."), LATER)
    found = watching.watched_between(desk.store, LATER.date(), LATER.date(), LATER)
    rows = {str(about): row for about, row in by_subject(found.amiss).items()}
    assert list(rows) == ["surface", "weld:z-deck"]
    assert (rows["surface"].rework, rows["surface"].concessions, rows["surface"].shells) == (2, 1, 2)
    assert rows["surface"].standings == {"granted": 1, "open": 1, "withdrawn": 1}
    assert rows["weld:z-deck"].standings == {"asked": 1}
    assert {one.serial for one in found.amiss} == {"S-2026-00001", "S-2026-00002"}
    assert watching.watched_between(desk.store, None, NOW.date(), LATER).amiss == ()


def rework_of(desk: Desk, shell: int) -> int:
    with desk.store.reading() as db:
        return rework.of_shell(db, shell)[0].id


def test_stock_is_as_old_as_the_days_since_it_came_in_the_oldest_first(desk: Desk) -> None:
    old, new = for_stock(desk), for_stock(desk)
    found = watching.watched_between(desk.store, None, None, LATER + timedelta(days=31))
    assert {one.number for one in found.stock} == {old.number, new.number}
    assert [(one.days, band_of(one.days)) for one in found.stock] == [(31, 90), (31, 90)]


@pytest.mark.parametrize(("days", "band"), [(0, 30), (30, 30), (31, 90), (90, 90), (180, 180), (181, None)])
def test_a_band_of_age_holds_its_last_day(days: int, band: int | None) -> None:
    assert band_of(days) == band


def test_what_was_counted_is_never_changed(desk: Desk) -> None:
    refused(desk)
    with pytest.raises(sqlite3.IntegrityError, match="only grow"), desk.store.writing() as db:
        db.execute("DELETE FROM refusals")


def test_the_same_causes_are_the_same_in_whatever_order_they_were_found() -> None:
    assert sorted_causes([("D18", "D3a"), ("N9",)]) == sorted_causes([("N9",), ("D3a", "D18")])
    assert sorted_causes([("N9",), ("D3a", "D18")]) == (("D18", "D3a"), ("N9",))


def test_currencies_are_not_added_and_what_has_no_price_is_told() -> None:
    def one(enquiry: int, currency: str, net: int | None, *ids: str) -> Refused:
        return Refused(enquiry, "Q", (ids,), 1, 1, currency, net, NOW)

    rows = (one(1, "GBP", 100, "N1"), one(2, "EUR", 70, "N1", "D3a"), one(3, "GBP", None, "N1"))
    assert counted(rows).nets == {"GBP": 100, "EUR": 70}
    assert (counted(rows).unpriced, list(by_cause(rows))) == (1, ["N1", "D3a"])
