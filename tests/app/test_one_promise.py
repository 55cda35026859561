"""A quotation has at most one live promise: what was accepted may be revised, but never by accident."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from app.domain.errors import YesStands
from app.domain.quotations.enquiry import Enquiry
from app.domain.quotations.quotation import EarlierYes, Quotation, QuotationRow, Reply, Revision, Standing
from app.services.planning import foreseeing
from app.services.quotations import listing, quoting, settling
from app.services.quotations.working_out import WorkedOut, work_out
from app.store.db import Store
from tests.app.desk import CLERK, NOW, S3_ROADSTER, Desk

SAID = NOW + timedelta(days=1)
LATER = NOW + timedelta(days=2)
YES = EarlierYes("A", SAID, "Agnes Thornbury")


@pytest.fixture
def accepted(desk: Desk) -> str:
    """A quotation whose A is accepted and whose B is a draft."""
    number = desk.drafted((S3_ROADSTER, 1))
    version = desk.issue(number).version
    settling.accept(desk.store, CLERK, number, "A", Reply(SAID, "Agnes Thornbury"), SAID, expected=version)
    quoting.next_revision(desk.store, CLERK, number, LATER)
    return number


def test_a_draft_beside_a_yes_changes_nothing_of_it_and_the_history_says_so(desk: Desk, accepted: str) -> None:
    quotation = _quotation(desk, accepted)
    assert (quotation.standing, quotation.standing_yes) == (Standing.ACCEPTED, quotation.revisions[0])
    assert quotation.history[-1].facts == {
        "number": accepted,
        "letter": "B",
        "reason": "accepted",
        "accepted": "A",
    }
    (row,) = _rows(desk, Standing.ACCEPTED)
    assert (row.letter, row.draft, row.earlier_yes) == ("A", "B", None)


def test_issuing_it_is_refused_until_somebody_says_that_it_may_take_the_place_of_the_yes(
    desk: Desk, accepted: str
) -> None:
    with pytest.raises(YesStands) as refused:
        quoting.issue(desk.store, CLERK, accepted, "B", LATER, expected=1)
    facts = {**refused.value.facts, "day": str(refused.value.facts["day"])}
    assert facts == {
        "number": accepted,
        "letter": "B",
        "accepted": "A",
        "said_by": "Agnes Thornbury",
        "day": "2026-11-03",
    }
    assert _quotation(desk, accepted).standing is Standing.ACCEPTED


def test_then_only_the_last_that_is_out_is_live_and_the_yes_stays_told(desk: Desk, accepted: str) -> None:
    _replace(desk, accepted)
    quotation = _quotation(desk, accepted)
    assert [one.standing for one in quotation.revisions] == [Standing.SUPERSEDED, Standing.ISSUED]
    assert (quotation.standing, quotation.standing_yes) == (Standing.ISSUED, None)
    before = quotation.yes_before("B")
    assert before is not None
    assert before.yes == YES
    assert _rows(desk, Standing.ACCEPTED) == []
    (row,) = _rows(desk, Standing.ISSUED)
    assert (row.letter, row.draft, row.earlier_yes) == ("B", None, YES)


def test_the_workshop_sees_the_last_that_is_out_alone_with_the_remark(desk: Desk, accepted: str) -> None:
    before = foreseeing.work_to_come(desk.store, LATER).rows
    assert [(work.letter, work.accepted, work.earlier_yes) for work in before] == [("A", True, None)]
    _replace(desk, accepted)
    after = foreseeing.work_to_come(desk.store, LATER).rows
    assert [(work.letter, work.accepted, work.earlier_yes) for work in after] == [("B", False, YES)]
    assert foreseeing.one_work_to_come(desk.store, accepted, LATER) == after[0]
    lapsed = foreseeing.work_to_come(desk.store, LATER + timedelta(days=40)).rows
    assert lapsed == ()  # B lapsed, and A's place was taken


def test_a_yes_that_comes_while_the_next_is_being_issued_is_not_run_over(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Between working out and writing: the last look is within the one transaction that issues."""
    number = desk.drafted((S3_ROADSTER, 1))
    version = desk.issue(number).version
    quoting.next_revision(desk.store, CLERK, number, SAID)

    def answered_meanwhile(store: Store, enquiry: Enquiry, revision: Revision, now: datetime) -> WorkedOut:
        worked = work_out(store, enquiry, revision, now)
        if _quotation(desk, number).standing is Standing.ISSUED:
            settling.accept(desk.store, CLERK, number, "A", Reply(SAID, "Agnes Thornbury"), SAID, expected=version)
        return worked

    monkeypatch.setattr("app.services.quotations.quoting.work_out", answered_meanwhile)
    with pytest.raises(YesStands):
        quoting.issue(desk.store, CLERK, number, "B", LATER, expected=1)
    assert _quotation(desk, number).standing is Standing.ACCEPTED


def test_a_list_says_what_a_draft_would_come_to_now(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    rows = quoting.quotations(desk.store, CLERK, NOW).rows
    (listed,) = listing.listed(desk.store, CLERK, rows, NOW)
    assert listed.totals is not None
    assert (listed.currency, listed.totals.cases[0].sum.with_tax, listed.waits_for) == ("GBP", 14_508_00, "issue")
    desk.issue(number)
    quoting.next_revision(desk.store, CLERK, number, NOW)
    (row,) = listing.listed(desk.store, CLERK, quoting.quotations(desk.store, CLERK, NOW).rows, NOW)
    assert (row.row.letter, row.row.draft, row.waits_for) == ("A", "B", "issue")


def test_a_list_that_may_show_no_price_sums_no_draft(desk: Desk) -> None:
    desk.drafted((S3_ROADSTER, 1))
    rows = quoting.quotations(desk.store, CLERK, NOW).rows
    (listed,) = listing.listed(desk.store, CLERK, rows, NOW, sums=False)
    assert listed.totals is None


def _replace(desk: Desk, number: str) -> None:
    quoting.issue(desk.store, CLERK, number, "B", LATER, expected=1, replaces_yes=True, draw=False)


def _quotation(desk: Desk, number: str) -> Quotation:
    return quoting.quotation(desk.store, CLERK, number, LATER)


def _rows(desk: Desk, standing: Standing) -> list[QuotationRow]:
    found = quoting.quotations(desk.store, CLERK, LATER, standing=standing).rows
    return [one.row for one in listing.listed(desk.store, CLERK, found, LATER)]
