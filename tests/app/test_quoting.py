from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from threading import Barrier

import pytest

from app.domain.errors import (
    BadInput,
    CannotBeBuilt,
    ChangedByAnother,
    DraftStands,
    Frozen,
    NotFound,
    Refusal,
    UnknownNames,
)
from app.domain.quotations.quotation import DeliveryPlace, Draft, DraftLine, ExtraSold, Standing, next_letter
from app.services.quotations import handing_out, quoting
from rules.specification import Specification, Taken
from tests.app.desk import BAYOU, CLERK, LINDENHOF, NOW, S3_ROADSTER, Desk

#: Case 7: four-link with impact bumpers can never be built (N2).
IMPOSSIBLE = Specification({"suspension": Taken("four-link"), "bumpers": Taken("impact")})


def test_quotations_are_numbered_by_year_without_gaps(desk: Desk) -> None:
    numbers = [desk.drafted(at=at) for at in (NOW, NOW, NOW + timedelta(days=60))]
    assert numbers == ["Q-2026-00001", "Q-2026-00002", "Q-2027-00001"]


def test_the_year_is_that_of_the_firm_s_own_zone(desk: Desk) -> None:
    """23:30 UTC on 30 June is the next day in London, and New Year's Eve is not: one hour decides either way."""
    new_year = NOW.replace(month=12, day=31, hour=23, minute=59)
    assert desk.drafted(at=new_year) == "Q-2026-00001"
    assert desk.drafted(at=new_year + timedelta(minutes=1)) == "Q-2027-00001"


def test_a_draft_keeps_what_can_t_be_built_as_it_was_typed(desk: Desk) -> None:
    number = desk.drafted()
    draft = Draft(
        "GBP",
        DeliveryPlace("GB", "Kent"),
        "Asked for both.",
        (DraftLine(IMPOSSIBLE, 2),),
        (ExtraSold("photo-book", 1),),
    )
    quoting.save_draft(desk.store, CLERK, number, "A", draft, NOW, expected=2)
    assert desk.revision(number).draft() == draft
    priced = quoting.price_revision(desk.store, CLERK, number, "A", NOW)
    assert isinstance(priced.refusals[0], CannotBeBuilt)
    assert priced.totals is None


def test_all_unknown_names_are_told_at_once_and_the_draft_stays_as_it_was(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    before = desk.revision(number)
    wrong = Specification({"wings": Taken("big"), "body": Taken("estate")})
    draft = Draft("ZAR", lines=(DraftLine(wrong),), extras=(ExtraSold("hamper", 1),))
    with pytest.raises(UnknownNames) as refused:
        quoting.save_draft(desk.store, CLERK, number, "A", draft, NOW, expected=2)
    assert [(fault.path, fault.code) for fault in refused.value.faults] == [
        ("price_list", "unknown-list-quoted"),
        ("lines.0.specification.wings", "unknown-option"),
        ("lines.0.specification.body", "unknown-choice"),
        ("extras.0.extra", "unknown-extra"),
    ]
    assert desk.revision(number) == before


@pytest.mark.parametrize(("quantity", "code"), [(0, "too-small"), (-3, "too-small"), (10**12, "too-large")])
def test_absurd_quantities_are_refused(desk: Desk, quantity: int, code: str) -> None:
    draft = Draft("GBP", lines=(DraftLine(Specification(), quantity),))
    with pytest.raises(BadInput) as refused:
        quoting.save_draft(desk.store, CLERK, desk.drafted(), "A", draft, NOW, expected=2)
    assert [(fault.path, fault.code) for fault in refused.value.faults] == [("lines.0.quantity", code)]


def test_of_two_threads_that_edit_one_draft_one_wins_and_the_other_is_told(desk: Desk) -> None:
    number, start = desk.drafted(), Barrier(2)

    def save(note: str) -> str:
        start.wait()
        try:
            quoting.save_draft(desk.store, CLERK, number, "A", Draft("GBP", note=note), NOW, expected=2)
        except ChangedByAnother:
            return "told"
        return note

    with ThreadPoolExecutor(2) as threads:
        results = list(threads.map(save, ("mine", "yours")))
    (winner,) = [result for result in results if result != "told"]
    assert desk.revision(number).note == winner
    assert desk.revision(number).version == 3


def test_a_draft_is_always_priced_by_the_book_and_the_tools_in_force(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    priced = quoting.price_revision(desk.store, CLERK, number, "A", NOW)
    assert (priced.book, priced.tool_state, priced.refusals) == (1, 4, ())
    assert priced.totals is not None
    assert priced.totals.cases[0].sum.payable == 14_508_00  # 11 850 + dolly 240 = 12 090, and 20 %


def test_three_shells_for_hollin_lane_come_to_the_penny(desk: Desk) -> None:
    """Case 13: 36 037.15 with tax, deposit 9 009.29 of which tax 1 501.55."""
    number = desk.drafted((S3_ROADSTER, 3), wish=desk.wish(dealer="hollin-lane", trade=True))
    totals = quoting.price_revision(desk.store, CLERK, number, "A", NOW).totals
    assert totals is not None
    (case,) = totals.cases
    assert (totals.lines_net, case.sum.tax, case.sum.payable) == (30_030_96, 6_006_19, 36_037_15)
    assert (case.deposit, case.deposit_tax, case.balance) == (9_009_29, 1_501_55, 27_027_86)


def test_a_customer_from_abroad_who_collects_leaves_the_tax_to_a_person(desk: Desk) -> None:
    """Case 19: both totals, 12 090.00 and 14 508.00."""
    number = desk.drafted((S3_ROADSTER, 1), wish=desk.wish(country="FR"), place=DeliveryPlace())
    totals = quoting.price_revision(desk.store, CLERK, number, "A", NOW).totals
    assert totals is not None
    assert totals.decided is False
    assert {case.kind: case.sum.payable for case in totals.cases} == {"export": 12_090_00, "standard": 14_508_00}


def test_the_next_revision_copies_the_last_and_only_one_draft_stands(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 2), extras=(ExtraSold("photo-book", 1),))
    with pytest.raises(DraftStands):
        quoting.next_revision(desk.store, CLERK, number, NOW)
    issued = desk.issue(number)
    second = quoting.next_revision(desk.store, CLERK, number, NOW)
    assert (second.letter, second.standing, second.draft()) == ("B", Standing.DRAFT, issued.draft())
    with pytest.raises(DraftStands) as refused:
        quoting.next_revision(desk.store, CLERK, number, NOW)
    assert refused.value.facts == {"number": number, "letter": "B"}


@pytest.mark.parametrize(("letter", "after"), [("A", "B"), ("Y", "Z"), ("Z", "AA"), ("AZ", "BA"), ("ZZ", "AAA")])
def test_revisions_are_lettered_past_z(letter: str, after: str) -> None:
    assert next_letter(letter) == after


def test_an_issued_revision_stays_in_force_until_the_next_is_issued(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number)
    quoting.next_revision(desk.store, CLERK, number, NOW)
    assert quoting.quotation(desk.store, CLERK, number, NOW).standing is Standing.ISSUED
    desk.issue(number, "B")
    quotation = quoting.quotation(desk.store, CLERK, number, NOW)
    assert [revision.standing for revision in quotation.revisions] == [Standing.SUPERSEDED, Standing.ISSUED]


def test_the_history_says_who_did_what_when(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number, at=NOW + timedelta(hours=1))
    history = quoting.quotation(desk.store, CLERK, number, NOW).history
    assert [(entry.what, entry.by) for entry in history] == [
        ("revision-drafted", "imogen"),
        ("revision-changed", "imogen"),
        ("revision-issued", "imogen"),
    ]
    assert history[-1].at == NOW + timedelta(hours=1)


def test_lists_are_narrowed_by_standing_and_by_words(desk: Desk) -> None:
    issued, draft = desk.drafted((S3_ROADSTER, 1)), desk.drafted(wish=desk.wish("Tobias Fell"))
    desk.issue(issued)
    lapsed = NOW + timedelta(days=31)

    def numbers(**narrowed: object) -> list[str]:
        return [row.number for row in quoting.quotations(desk.store, CLERK, narrowed.pop("at", NOW), **narrowed).rows]  # type: ignore[arg-type]

    assert numbers(standing=Standing.ISSUED) == [issued]
    assert numbers(standing=Standing.DRAFT) == [draft]
    assert numbers(standing=Standing.LAPSED) == []
    assert numbers(standing=Standing.LAPSED, at=lapsed) == [issued]
    assert numbers(standing=Standing.ISSUED, at=lapsed) == []
    assert numbers(text="fell") == [draft]
    assert numbers(text="q-2026-00001") == [issued]


def test_another_dealer_s_quotation_is_exactly_as_if_it_were_not_there(desk: Desk) -> None:
    theirs = desk.drafted((S3_ROADSTER, 1), who=LINDENHOF, price_list="EUR")
    desk.issue(theirs, who=LINDENHOF)
    acts = {
        "read": lambda number: quoting.quotation(desk.store, BAYOU, number, NOW),
        "price": lambda number: quoting.price_revision(desk.store, BAYOU, number, "A", NOW),
        "save": lambda number: quoting.save_draft(desk.store, BAYOU, number, "A", Draft("EUR"), NOW, expected=1),
        "issue": lambda number: quoting.issue(desk.store, BAYOU, number, "A", NOW, expected=1),
        "revise": lambda number: quoting.next_revision(desk.store, BAYOU, number, NOW),
        "paper": lambda number: handing_out.paper(desk.store, BAYOU, number, "A", "en", "a4", NOW),
        "quote": lambda _: quoting.create_quotation(desk.store, BAYOU, 1, "EUR", DeliveryPlace(), NOW),
    }
    for name, act in acts.items():
        told = [_refusal(act, number) for number in (theirs, "Q-2026-09999")]
        assert told[0] == told[1], name
    assert quoting.quotations(desk.store, BAYOU, NOW).rows == ()
    assert quoting.quotations(desk.store, BAYOU, NOW, text=theirs).rows == ()


def test_a_dealer_prices_by_his_own_terms_and_his_own_list(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1), who=LINDENHOF, price_list="EUR", place=DeliveryPlace("DE"))
    priced = quoting.price_revision(desk.store, LINDENHOF, number, "A", NOW)
    assert priced.price is not None
    body = next(line for line in priced.price.lines[0].shell.lines if line.line == "body.roadster")
    assert (body.listed, body.discount) == (14_200_00, 1_704_00)  # Lindenhof: 12 % on A lines


def test_an_issued_revision_can_t_be_edited(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number)
    with pytest.raises(Frozen) as refused:
        quoting.save_draft(desk.store, CLERK, number, "A", Draft("GBP"), NOW, expected=3)
    assert refused.value.facts == {"number": number, "letter": "A"}


def _refusal(act: object, number: str) -> tuple[type[Refusal], str]:
    with pytest.raises(NotFound) as refused:
        act(number)  # type: ignore[operator]
    return type(refused.value), str(refused.value.facts["name"]).replace(number, "…")
