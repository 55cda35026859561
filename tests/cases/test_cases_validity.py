"""The case that turns on how long a quotation holds, as far as the customer's yes."""

from __future__ import annotations

import shutil
from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from app.domain.errors import Lapsed
from app.domain.quotations.quotation import Reply, Revision, Standing
from app.domain.quotations.then_and_now import Priced
from app.services.books import publishing
from app.services.quotations import quoting, rechecking, settling
from app.store.db import Store
from app.wording import say
from demo.loading import BOOK, set_up
from tests.app.desk import CLERK, MANAGER, S3_ROADSTER, Desk

LONDON, NEW_YORK = ZoneInfo("Europe/London"), ZoneInfo("America/New_York")

ISSUED = datetime(2026, 11, 2, 11, tzinfo=LONDON)
RAISED = datetime(2026, 11, 16, 9, tzinfo=LONDON)

#: The roadster at 11 850 pounds becomes 12 100.
BODY_BEFORE, BODY_AFTER = ("11 850", "12 100")


@pytest.fixture(scope="module")
def issued_before_the_rise(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Case 12's roadster is out since 2 November; the list was raised on 16 November."""
    store = Store(tmp_path_factory.mktemp("case-21") / "desk.sqlite3")
    set_up(store, datetime(2026, 10, 1, tzinfo=UTC))
    desk = Desk(store)
    number = desk.drafted(({**S3_ROADSTER, "delivery": "van"}, 1), at=ISSUED)
    assert number == "Q-2026-00001"
    quoting.issue(store, CLERK, number, "A", ISSUED, expected=2, draw=False)
    text = BOOK.read_text(encoding="utf-8")
    assert text.count(BODY_BEFORE) == 1
    publishing.publish_book(store, MANAGER, text.replace(BODY_BEFORE, BODY_AFTER), RAISED)
    store.close()
    return store.path


@pytest.fixture
def desk(issued_before_the_rise: Path, tmp_path: Path) -> Desk:
    return Desk(Store(shutil.copy(issued_before_the_rise, tmp_path / "desk.sqlite3")))


@pytest.mark.parametrize(
    "at",
    [
        datetime(2026, 11, 30, 15, tzinfo=LONDON),
        datetime(2026, 12, 2, 23, 40, tzinfo=LONDON),
        datetime(2026, 12, 2, 18, 40, tzinfo=NEW_YORK),  # the same moment
    ],
)
def test_case_21_accepted_to_the_end_of_2_december_in_london_at_the_old_list(desk: Desk, at: datetime) -> None:
    accepted = _accept(desk, at)
    assert accepted.standing is Standing.ACCEPTED
    assert accepted.book == 1
    assert accepted.totals is not None
    assert accepted.totals.cases[0].sum.payable == 14_850_00


@pytest.mark.parametrize(
    "at",
    [
        datetime(2026, 12, 2, 19, 30, tzinfo=NEW_YORK),
        datetime(2026, 12, 3, 0, 0, tzinfo=LONDON),
        datetime(2026, 12, 3, 9, 0, tzinfo=LONDON),
    ],
)
def test_case_21_half_past_seven_in_new_york_is_3_december_here_and_it_has_lapsed(desk: Desk, at: datetime) -> None:
    with pytest.raises(Lapsed) as refused:
        _accept(desk, at)
    assert desk.revision("Q-2026-00001", at=at).standing is Standing.LAPSED
    for language, words in (("en", "today’s prices"), ("de", "heutigen Preisen")):
        assert words in say("problem.lapsed.repair", language, **refused.value.facts)


def test_case_21_accepted_on_3_december_it_is_copied_at_today_s_list(desk: Desk) -> None:
    today = datetime(2026, 12, 3, 9, 0, tzinfo=LONDON)
    copied = quoting.next_revision(desk.store, CLERK, "Q-2026-00001", today)
    priced = quoting.price_revision(desk.store, CLERK, "Q-2026-00001", "B", today)
    assert (copied.draft(), priced.book) == (desk.revision("Q-2026-00001").draft(), 2)
    assert priced.totals is not None
    assert priced.totals.cases[0].sum.payable == 15_150_00  # 12 100 + 240 + 285 = 12 625.00, and 20 %
    was = desk.revision("Q-2026-00001").totals
    assert was is not None
    assert was.cases[0].sum.payable == 14_850_00


def test_case_21_the_copy_is_held_line_by_line_against_what_was_quoted(desk: Desk) -> None:
    """As it was / as it is: 11 850 → 12 100 before tax; 14 850.00 → 15 150.00 with tax, deposit 3 712.50 → 3 787.50."""
    today = datetime(2026, 12, 3, 9, 0, tzinfo=LONDON)
    quoting.next_revision(desk.store, CLERK, "Q-2026-00001", today)
    found = rechecking.recheck(desk.store, CLERK, "Q-2026-00001", "B", today)
    assert found.found is not None
    (line,) = found.found.lines
    moved = [(row.id, row.before, row.after) for row in line.prices if row.moved]
    assert moved == [("body.roadster", Priced(11_850_00, 11_850_00), Priced(12_100_00, 12_100_00))]
    assert [row.id for row in line.prices if not row.moved] == ["packing.dolly", "delivery.van"]
    assert (line.verdict.stayed, line.ready.stayed, line.answers) == (True, True, ())
    assert [(row.id, row.before, row.after) for row in line.rules] == [("C2", True, True)]
    sums = found.found.sums
    assert sums.before is not None
    assert sums.after is not None
    then, now = sums.before.cases[0], sums.after.cases[0]
    assert (then.with_tax, then.deposit) == (14_850_00, 3_712_50)
    assert (now.with_tax, now.deposit) == (15_150_00, 3_787_50)
    assert found.advice == ("draft",)


@pytest.mark.parametrize(
    ("at", "told"),
    [
        (datetime(2026, 11, 16, 8, 59, tzinfo=LONDON), ()),
        (datetime(2026, 11, 16, 9, 0, tzinfo=LONDON), ("dearer",)),
        (datetime(2026, 12, 3, 9, 0, tzinfo=LONDON), ("again",)),
    ],
)
def test_case_21_a_raised_list_is_shown_on_what_is_out_and_alters_nothing(
    desk: Desk, at: datetime, told: tuple[str, ...]
) -> None:
    before = desk.revision("Q-2026-00001", at=at)
    found = rechecking.recheck(desk.store, CLERK, "Q-2026-00001", "A", at)
    assert found.advice == told
    after = desk.revision("Q-2026-00001", at=at)
    assert (after.frozen, after.lines, after.version) == (before.frozen, before.lines, before.version)


def _accept(desk: Desk, at: datetime) -> Revision:
    """Said and written down at that moment."""
    return settling.accept(desk.store, CLERK, "Q-2026-00001", "A", Reply(at, "Maud Ferrier"), at, expected=3)
