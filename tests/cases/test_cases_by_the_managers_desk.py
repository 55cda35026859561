"""Cases 21 and 30b over the manager's desk: the book is drafted by forms, rehearsed, published while others work."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path
from time import sleep
from zoneinfo import ZoneInfo

import pytest

from app.domain.books.rehearsal import Rehearsal
from app.domain.quotations.quotation import Reply, Standing
from app.services.books import drafting, publishing, rehearsing
from app.services.books.drafting import Edit
from app.services.quotations import quoting, rechecking, settling
from app.store.db import Store
from demo.loading import set_up
from rules.answer import Verdict
from rules.drafting import Entry, sheet_of
from tests.app.desk import CLERK, MANAGER, S3_ROADSTER, Desk

LONDON = ZoneInfo("Europe/London")
ISSUED = datetime(2026, 11, 2, 11, tzinfo=LONDON)
RAISED = datetime(2026, 11, 16, 9, tzinfo=LONDON)

S4_ALUMINIUM = {"body": "roadster", "market": "home", "series": "s4", "delivery": "van", "bonnet": "aluminium"}


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    store = Store(tmp_path / "desk.sqlite3")
    set_up(store, datetime(2026, 10, 1, tzinfo=UTC))
    return Desk(store)


def begin(desk: Desk, at: datetime) -> Edit:
    return Edit(MANAGER, drafting.begin(desk.store, MANAGER, None, at).id, 1, at)


def rehearsed(desk: Desk, edit: Edit) -> Rehearsal:
    draft = drafting.draft(desk.store, edit.draft)
    rehearsing.rehearse(desk.store, MANAGER, draft, edit.now)
    for _ in range(400):
        if (found := rehearsing.rehearsed(desk.store, draft, edit.now)) is not None:
            return found
        sleep(0.05)
    raise AssertionError("The rehearsal never ended.")


def publish(desk: Desk, edit: Edit, note: str) -> None:
    version = drafting.draft(desk.store, edit.draft).step.version
    rehearsing.publish(desk.store, Edit(MANAGER, edit.draft, version, edit.now), note, None)


def test_case_21_the_raised_list_is_seen_before_it_is_published_and_alters_nothing_that_is_out(desk: Desk) -> None:
    number = desk.drafted(({**S3_ROADSTER, "delivery": "van"}, 1), at=ISSUED)
    quoting.issue(desk.store, CLERK, number, "A", ISSUED, expected=2, draw=False)
    edit = begin(desk, RAISED)
    drafting.paste_prices(desk.store, edit, "price,GBP\nbody.roadster,12 100\n")
    found = rehearsed(desk, edit)
    (row,) = found.touched
    # 11 850 + 240 + 285 = 12 375.00; 12 100 + 240 + 285 = 12 625.00, before tax (case 12, case 21).
    assert (row.number, row.advice, row.before, row.after) == (number, ("dearer",), 12_375_00, 12_625_00)
    publish(desk, edit, "The raised list.")
    assert publishing.current_number(desk.store, RAISED) == 2

    late = datetime(2026, 12, 2, 23, 40, tzinfo=LONDON)
    assert rechecking.recheck(desk.store, CLERK, number, "A", late).advice == ("dearer",)
    yes = settling.accept(desk.store, CLERK, number, "A", Reply(late, "Maud Ferrier"), late, expected=3)
    assert yes.totals is not None
    assert (yes.standing, yes.book, yes.totals.cases[0].sum.payable) == (Standing.ACCEPTED, 1, 14_850_00)


def test_case_30b_the_manager_sees_the_draft_in_his_rehearsal_and_the_clerk_which_two_answers_changed(
    desk: Desk,
) -> None:
    begun = datetime(2026, 11, 2, 11, tzinfo=UTC)
    number = desk.drafted((S4_ALUMINIUM, 1), at=begun)
    before = desk.revision(number, at=begun)
    edit = begin(desk, begun + timedelta(days=3))
    rule = (
        ("never", "bonnet is aluminium and hood is hood"),
        ("reason en", "We build no aluminium bonnet beside a hood any more."),
        ("reason de", "Eine Aluminiumhaube neben einem Verdeck bauen wir nicht mehr."),
    )
    last = len(sheet_of(drafting.draft(desk.store, edit.draft).text).pieces) - 1
    drafting.add(desk.store, edit, last, Entry("rule", "N11", rule))
    found = rehearsed(desk, edit)
    assert [(one.number, one.advice, one.causes) for one in found.touched] == [(number, ("draft",), (("N11",),))]
    publish(desk, edit, "No longer together.")

    later = begun + timedelta(days=3, hours=1)
    after = desk.revision(number, at=later)
    assert (after.draft(), after.version) == (before.draft(), before.version)
    said = rechecking.recheck(desk.store, CLERK, number, "A", later)
    assert said.found is not None
    (line,) = said.found.lines
    assert (line.verdict.after, line.come) == (Verdict.CANT, (("N11",),))
    assert [row.option for row in line.answers] == ["hood", "bonnet"]
