"""Whether promises hold, by the firm's own work: counted in the background, the same seed the same outlook."""

from __future__ import annotations

from threading import enumerate as threads

import pytest

from app.domain.planning.outlook import Outlook, Supposed
from app.services.books import publishing
from app.services.planning import outlook
from app.services.planning.outlook import Progress
from tests.app.desk import MANAGER, NOW, S3_ROADSTER, Desk
from tests.app.test_ordering import LATER, S3_COUPE
from tests.app.test_promising import clear, paid

FEW = Supposed(seed=5, years=20)
PAINTED = {**S3_COUPE, "finish": "painted", "scope": "outside", "colour": "peat", "primer": "epoxy-and-filler"}


def worked_out(desk: Desk, supposed: Supposed = FEW) -> Outlook:
    outlook.begin(desk.store, MANAGER, supposed, LATER)
    for thread in [one for one in threads() if one.name == "outlook"]:
        thread.join()
    found = outlook.outlook(desk.store)
    assert found is not None
    return found


@pytest.fixture
def with_slots(desk: Desk) -> Desk:
    clear(desk, paid(desk, (S3_ROADSTER, 1), (PAINTED, 1)))
    return desk


def test_it_counts_by_the_shells_that_have_slots_and_by_the_book_s_stages(with_slots: Desk) -> None:
    found = worked_out(with_slots)
    counted = found.counted
    assert (counted.shells, counted.parts, counted.rework_at, counted.booth) == (2, 0, "fit-and-gap", "paint")
    assert (counted.slack, counted.slack_days, found.width) == ("buffer", 5, 10)
    assert [load for load, _ in found.held] == [85, 90, 95]
    assert all(0.5 < held.kept(10) <= 1 and held.kept(0) < 1 for _, held in found.held)
    assert outlook.progress(with_slots.store) is None


def test_the_same_seed_gives_the_same_outlook(with_slots: Desk) -> None:
    first = worked_out(with_slots).held
    assert worked_out(with_slots).held == first
    assert worked_out(with_slots, Supposed(seed=6, years=20)).held != first


def test_where_nothing_is_supposed_to_go_wrong_all_is_kept(with_slots: Desk) -> None:
    calm = Supposed(years=5, rework=0, part_late=0, tool_days=0, booth_days=0)
    assert {held.kept(0) for _, held in worked_out(with_slots, calm).held} == {1.0}


def test_a_firm_without_slots_is_tried_with_a_plain_shell(desk: Desk) -> None:
    found = worked_out(desk)
    assert found.counted.shells == 0
    assert found.held[0][1].shells > 0


def test_progress_counts_the_years_of_every_load(desk: Desk) -> None:
    book = publishing.current_book(desk.store, NOW)
    told = Progress(FEW)
    assert len(list(outlook.look(book, outlook.firm_of(desk.store, MANAGER, book, NOW), told))) == 3
    assert (told.done, told.of) == (60, 60)
