"""Case 30b as far as it stands: a rule book is published while a draft is edited."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from app.domain.quotations.changes import Moved
from app.domain.quotations.then_and_now import AnswerRow, Stood
from app.services.books import publishing
from app.services.quotations import rechecking
from app.store.db import Store
from demo.loading import BOOK, set_up
from rules.answer import Verdict
from tests.app.desk import CLERK, MANAGER, Desk

BEGUN = datetime(2026, 11, 2, 11, tzinfo=UTC)
PUBLISHED = BEGUN + timedelta(days=3)
LATER = PUBLISHED + timedelta(hours=1)

S4_ROADSTER = {"body": "roadster", "market": "home", "series": "s4", "delivery": "van"}


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    store = Store(tmp_path / "desk.sqlite3")
    set_up(store, datetime(2026, 10, 1, tzinfo=UTC))
    return Desk(store)


def publish_without_boxed_rail_ends(desk: Desk) -> None:
    """From then on nothing with boxed rail ends can be built."""
    text = BOOK.read_text(encoding="utf-8")
    rule = next(part for part in text.split("\n\n") if part.startswith("rule N2\n"))
    added = rule.replace("rule N2", "rule N11").replace(
        "suspension is four-link and bumpers is impact", "rail-ends is boxed"
    )
    publishing.publish_book(desk.store, MANAGER, text.replace(rule, f"{rule}\n\n{added}"), PUBLISHED)


def test_case_30b_the_draft_is_kept_and_says_which_two_answers_changed(desk: Desk) -> None:
    number = desk.drafted((S4_ROADSTER, 1), at=BEGUN)
    before = desk.revision(number, at=BEGUN)
    publish_without_boxed_rail_ends(desk)
    after = desk.revision(number, at=LATER)
    assert (after.draft(), after.version) == (before.draft(), before.version)
    found = rechecking.recheck(desk.store, CLERK, number, "A", LATER)
    assert found.found is not None
    (line,) = found.found.lines
    assert (line.verdict, line.come) == (Moved(Verdict.AS_HAD, Verdict.CANT), (("N11",),))
    assert line.answers == (
        AnswerRow("bumpers", "impact", Stood("impact", False, True), Stood("impact", True, True)),
        AnswerRow("rail-ends", "boxed", Stood("boxed", False, True), Stood("boxed", True, True)),
    )


def test_case_30b_nothing_is_said_until_something_moved_and_once_it_was_seen(desk: Desk) -> None:
    number = desk.drafted((S4_ROADSTER, 1), at=BEGUN)
    assert rechecking.recheck(desk.store, CLERK, number, "A", BEGUN).advice == ()
    publish_without_boxed_rail_ends(desk)
    assert rechecking.recheck(desk.store, CLERK, number, "A", LATER).advice == ("draft",)
    rechecking.see(desk.store, CLERK, number, "A", 2, 4, LATER)
    assert rechecking.recheck(desk.store, CLERK, number, "A", LATER).advice == ()
