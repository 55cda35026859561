"""A draft rehearsed: what it does to quotations, known shells and all of before; and publishing, refused without it."""

from __future__ import annotations

from datetime import timedelta
from time import sleep

import pytest

from app.domain.books.book_draft import BookDraft
from app.domain.books.rehearsal import HeadlineMoved, Rehearsal, Stored
from app.domain.errors import BadInput, BookRefused, ChangedByAnother, DraftClosed, NotRehearsed, RehearsalFailed
from app.services.books import drafting, publishing, rehearsing, tools
from app.services.books.drafting import Edit
from app.services.books.rehearsing import Progress
from rules.answer import Verdict
from rules.model import ToolCondition
from tests.app.desk import MANAGER, NOW, S3_ROADSTER, Desk

LATER = NOW + timedelta(days=3)
VAN = {**S3_ROADSTER, "packing": "dolly", "delivery": "van"}
FOLDING = {**S3_ROADSTER, "body": "coupe", "roof": "folding", "packing": "dolly", "delivery": "van"}


def drafted(desk: Desk, *changes: tuple[str, str]) -> BookDraft:
    """A draft in whose text each first is replaced by the second."""
    draft = drafting.begin(desk.store, MANAGER, None, LATER)
    text = draft.text
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return drafting.write(desk.store, Edit(MANAGER, draft.id, 1, LATER), text)


def look(desk: Desk, draft: BookDraft) -> Rehearsal:
    return rehearsing.look(desk.store, MANAGER, rehearsing.draft_book(draft), LATER, Progress())


def rehearse(desk: Desk, draft: BookDraft) -> Rehearsal:
    """Through the thread, as the desk does it."""
    rehearsing.rehearse(desk.store, MANAGER, draft, LATER)
    for _ in range(200):
        found = rehearsing.rehearsed(desk.store, draft, LATER)
        if found is not None:
            return found
        sleep(0.05)
    raise AssertionError("The rehearsal never ended.")


def publish(desk: Desk, draft: BookDraft, note: str = "Dearer.") -> BookDraft:
    return rehearsing.publish(desk.store, Edit(MANAGER, draft.id, draft.step.version, LATER), note, None)


DEARER = ("| roadster | Roadster | Roadster | 11 850 |", "| roadster | Roadster | Roadster | 12 000 |")
NO_FOLDING = ("rule N4\n  never: body is roadster and roof is folding", "rule N4\n  never: roof is folding")


def test_a_dearer_price_touches_the_draft_and_the_quotation_in_date_and_says_what_to_do(desk: Desk) -> None:
    issued, draft = desk.drafted((VAN, 2)), desk.drafted((VAN, 1))
    untouched = desk.drafted((FOLDING, 1))
    desk.issue(issued)
    found = look(desk, drafted(desk, DEARER))
    assert {one.number for one in found.touched} == {issued, draft}
    rows = {one.number: one for one in found.touched}
    assert [one.id for one in found.known if one.wrong == ("price",)] == [
        "s1-with-its-own-tunnel",
        "s3-primed-by-our-van",
    ]
    assert not any(found.faults())
    assert (rows[issued].advice, rows[draft].advice) == (("dearer",), ("draft",))
    assert (rows[issued].before, rows[issued].after) == (2_475_000, 2_505_000)
    assert (rows[draft].before, rows[draft].after) == (1_237_500, 1_252_500)
    assert (found.looked_at, untouched in rows) == (3, False)


def test_a_tighter_rule_names_what_can_no_longer_be_built_and_why(desk: Desk) -> None:
    issued = desk.drafted((VAN, 1), (FOLDING, 1))
    desk.issue(issued)
    found = look(desk, drafted(desk, NO_FOLDING))
    (row,) = found.touched
    assert row.advice == ("tightened",)
    assert row.verdicts == (HeadlineMoved(2, Verdict.NOT_AS_HAD, Verdict.CANT),)
    assert row.causes == (("N4",),)


def test_what_an_earlier_book_did_already_is_no_work_of_the_draft(desk: Desk) -> None:
    issued = desk.drafted((VAN, 1))
    desk.issue(issued)
    publish(desk, _rehearsed(desk, drafted(desk, DEARER)))
    draft = drafting.begin(desk.store, MANAGER, None, LATER)
    assert look(desk, draft).touched == ()


def _rehearsed(desk: Desk, draft: BookDraft) -> BookDraft:
    rehearse(desk, draft)
    return draft


def test_specifications_of_before_are_counted_lost_and_gained(desk: Desk) -> None:
    desk.issue(desk.drafted((VAN, 1), (FOLDING, 1)))
    assert look(desk, drafted(desk, NO_FOLDING)).stored == Stored(2, 1, 0)
    assert look(desk, drafted(desk)).stored == Stored(2, 0, 0)


def test_known_shells_are_held_and_one_that_is_answered_otherwise_keeps_the_book_from_being_published(
    desk: Desk,
) -> None:
    no_approval = ("rule A2\n  approval:", "rule A2\n  caution:")
    draft = drafted(desk, no_approval)
    found = rehearse(desk, draft)
    assert [(one.id, one.wrong, one.answer) for one in found.faults()] == [
        ("s4-four-link-with-chrome", ("answer", "because"), "yes")
    ]
    with pytest.raises(RehearsalFailed) as refused:
        publish(desk, draft)
    assert refused.value.facts["why"] == "known"


def test_a_book_that_contradicts_itself_is_not_published(desk: Desk) -> None:
    dead = ("rule N4\n  never: body is roadster and roof is folding", "rule N4\n  never: colour is chalk")
    draft = _rehearsed(desk, drafted(desk, dead))
    with pytest.raises(RehearsalFailed) as refused:
        publish(desk, draft)
    assert refused.value.facts["why"] == "unsound"


def test_without_a_rehearsal_of_that_very_text_nothing_is_published(desk: Desk) -> None:
    draft = drafted(desk, DEARER)
    with pytest.raises(NotRehearsed):
        publish(desk, draft)
    rehearse(desk, draft)
    edit = Edit(MANAGER, draft.id, draft.step.version, LATER)
    changed = drafting.write(desk.store, edit, draft.text.replace("12 000", "12 001"))
    with pytest.raises(NotRehearsed):
        publish(desk, changed)
    back = drafting.take_back(desk.store, Edit(MANAGER, draft.id, changed.step.version, LATER), draft.step.version)
    assert publish(desk, back).book == 2


def test_a_tool_that_broke_since_makes_the_rehearsal_old(desk: Desk) -> None:
    draft = _rehearsed(desk, drafted(desk, DEARER))
    state = tools.tool_states(desk.store).number
    tools.set_tool(desk.store, MANAGER, "coupe-roof", ToolCondition.DOWN, LATER, until=None, note="Cracked.",
                   expected=state)  # fmt: skip
    with pytest.raises(NotRehearsed):
        publish(desk, draft)


def test_published_it_is_the_book_in_force_the_draft_is_closed_and_going_back_is_publishing_again(desk: Desk) -> None:
    first = publish(desk, _rehearsed(desk, drafted(desk, DEARER)))
    assert (first.book, publishing.current_number(desk.store, LATER)) == (2, 2)
    with pytest.raises(DraftClosed):
        publish(desk, first)
    back = drafting.begin(desk.store, MANAGER, 1, LATER)
    again = publish(desk, _rehearsed(desk, back), "As it was.")
    assert publishing.book_text(desk.store, again.book or 0) == publishing.book_text(desk.store, 1)
    assert [(one.number, one.note) for one in publishing.published_books(desk.store)][:2] == [
        (3, "As it was."),
        (2, "Dearer."),
    ]


def test_a_book_may_come_into_force_later_and_never_earlier(desk: Desk) -> None:
    draft = _rehearsed(desk, drafted(desk, DEARER))
    edit = Edit(MANAGER, draft.id, draft.step.version, LATER)
    with pytest.raises(BadInput) as refused:
        rehearsing.publish(desk.store, edit, " ", LATER - timedelta(minutes=1))
    assert [(fault.path, fault.code) for fault in refused.value.faults] == [
        ("note", "required"), ("valid_from", "in-the-past")]  # fmt: skip
    rehearsing.publish(desk.store, edit, "From Friday.", LATER + timedelta(days=2))
    assert publishing.current_number(desk.store, LATER) == 1
    assert publishing.current_number(desk.store, LATER + timedelta(days=2)) == 2


def test_a_draft_with_mistakes_is_not_rehearsed(desk: Desk) -> None:
    with pytest.raises(BookRefused):
        rehearsing.rehearse(desk.store, MANAGER, drafted(desk, ("rule N4", "rulle N4")), LATER)


def test_whoever_publishes_what_another_has_changed_since_is_told(desk: Desk) -> None:
    draft = drafted(desk, DEARER)
    with pytest.raises(ChangedByAnother):
        rehearsing.publish(desk.store, Edit(MANAGER, draft.id, 1, LATER), "Mine.", None)
