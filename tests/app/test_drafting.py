"""A book drafted: what was not touched stays, every step can be taken back, nobody is overwritten."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from decimal import Decimal

import pytest

from app.domain.books.book_draft import BookDraft
from app.domain.errors import BadInput, ChangedByAnother, DraftClosed, NotFound, UnknownNames
from app.services.books import drafting, publishing, saying
from app.services.books.drafting import Edit
from rules.drafting import Entry, entry_of, sheet_of
from rules.drafting.terms import How, Term, Terms
from tests.app.desk import MANAGER, NOW, Desk


def begun(desk: Desk) -> BookDraft:
    return drafting.begin(desk.store, MANAGER, None, NOW)


def edit(draft: BookDraft) -> Edit:
    return Edit(MANAGER, draft.id, draft.step.version, NOW)


def at(draft: BookDraft, *words: str) -> int:
    return next(number for number, piece in enumerate(sheet_of(draft.text).pieces) if piece.words == words)


def entry(draft: BookDraft, *words: str) -> Entry:
    return entry_of(sheet_of(draft.text).pieces[at(draft, *words)])


def with_field(entry: Entry, name: str, value: str) -> Entry:
    return replace(entry, fields=tuple((n, value if n == name else v) for n, v in entry.fields))


def test_a_draft_begins_as_the_book_in_force_and_reads_as_it(desk: Desk) -> None:
    draft = begun(desk)
    assert draft.text == publishing.book_text(desk.store, 1)
    assert (draft.base, draft.step.version, draft.is_open) == (1, 1, True)
    assert drafting.read(draft.text).mistakes == ()


def test_one_changed_field_changes_one_line_of_the_text(desk: Desk) -> None:
    draft = begun(desk)
    new = with_field(entry(draft, "rule", "N4"), "reason en", "A roadster\nhas  no roof.")
    after = drafting.rewrite(desk.store, edit(draft), at(draft, "rule", "N4"), new)
    before, now = draft.text.split("\n"), after.text.split("\n")
    assert [(old, new) for old, new in zip(before, now, strict=True) if old != new] == [
        ("  reason en: A roadster has no roof to open.", "  reason en: A roadster has no roof.")
    ]
    assert (after.step.version, after.step.about) == (2, "rule N4")


def test_saying_the_same_leaves_no_version(desk: Desk) -> None:
    draft = begun(desk)
    same = drafting.rewrite(desk.store, edit(draft), at(draft, "rule", "N4"), entry(draft, "rule", "N4"))
    assert same.step.version == 1


def test_a_mistake_is_kept_and_told_in_its_block(desk: Desk) -> None:
    draft = begun(desk)
    wrong = with_field(entry(draft, "rule", "N4"), "never", "bodi is roadster")
    draft = drafting.rewrite(desk.store, edit(draft), at(draft, "rule", "N4"), wrong)
    (spot,) = drafting.spots(draft)
    assert spot.piece == at(draft, "rule", "N4")
    assert (spot.mistake.what, spot.mistake.instead) == ("there is no option “bodi”", "did you mean “body”?")
    assert sheet_of(draft.text).pieces[spot.piece].lines[spot.row or 0] == "  never: bodi is roadster"


def test_the_second_of_two_who_change_a_draft_is_told_and_overwrites_nothing(desk: Desk) -> None:
    draft = begun(desk)
    first = drafting.take_out(desk.store, edit(draft), at(draft, "rule", "N4"))
    with pytest.raises(ChangedByAnother) as told:
        drafting.take_out(desk.store, edit(draft), at(draft, "rule", "N5"))
    assert told.value.facts == {"what": "book-draft", "name": str(draft.id), "expected": 1, "actual": 2}
    assert drafting.draft(desk.store, draft.id) == first


def test_every_step_can_be_taken_back_and_is_itself_a_step(desk: Desk) -> None:
    draft = begun(desk)
    drafting.take_out(desk.store, edit(draft), at(draft, "rule", "N4"))
    back = drafting.take_back(desk.store, Edit(MANAGER, draft.id, 2, NOW), 1)
    assert (back.text, back.step.version) == (draft.text, 3)
    assert [(step.version, step.act.value, step.about) for step in drafting.steps(desk.store, draft.id)] == [
        (3, "taken-back", "1"),
        (2, "taken-out", "rule N4"),
        (1, "begun", ""),
    ]


def test_a_block_is_added_where_it_was_wanted_and_moved(desk: Desk) -> None:
    draft = begun(desk)
    rule = Entry("rule", "N10", (("never", "tunnel is narrow"), ("reason en", "No."), ("reason de", "Nein.")))
    draft = drafting.add(desk.store, edit(draft), at(draft, "rule", "N9"), rule)
    assert at(draft, "rule", "N10") == at(draft, "rule", "N9") + 1
    book = drafting.read(draft.text).book
    assert book is not None
    assert [rule.id for rule in book.rules if rule.id.startswith("N")][-1] == "N10"
    draft = drafting.move(desk.store, edit(draft), at(draft, "rule", "N10"), at(draft, "rule", "N1"))
    moved = drafting.read(draft.text).book
    assert moved is not None
    assert moved.rules[0].id == "N10"


def test_a_block_is_changed_as_text_and_refused_without_its_head_line(desk: Desk) -> None:
    draft = begun(desk)
    here = at(draft, "rule", "N4")
    with pytest.raises(BadInput) as refused:
        drafting.rewrite_text(desk.store, edit(draft), here, "  never: always")
    assert [(fault.path, fault.code) for fault in refused.value.faults] == [("text", "no-block")]
    text = "rule N4\r\n  never: always\r\n  # mine\r\n  reason en: No.\r\n  reason de: Nein."
    draft = drafting.rewrite_text(desk.store, edit(draft), here, text)
    assert sheet_of(draft.text).pieces[here].lines == tuple(text.split("\r\n"))


@pytest.mark.parametrize(
    ("entry", "path"),
    [
        (Entry("rulle", "N4"), "kind"),
        (Entry("rule", "N4", (("reason: en", "x"),)), "fields.0.name"),
        (Entry("usual", "", (), (("when", "a"), ("always",))), "rows"),
    ],
)
def test_what_would_not_come_out_as_it_went_in_is_refused(desk: Desk, entry: Entry, path: str) -> None:
    with pytest.raises(BadInput) as refused:
        drafting.add(desk.store, edit(begun(desk)), 3, entry)
    assert [fault.path for fault in refused.value.faults] == [path]


def test_the_whole_text_comes_back_with_all_its_mistakes(desk: Desk) -> None:
    draft = drafting.write(desk.store, edit(begun(desk)), "book x\r\nrulle N1\n")
    assert draft.text == "book x\nrulle N1\n"
    assert drafting.spots(draft)[-1].piece == 1


def test_prices_are_raised_in_one_step_and_what_has_none_is_named(desk: Desk) -> None:
    draft = begun(desk)
    raised = drafting.raise_prices(
        desk.store, edit(draft), ("body.roadster", "body.coupe"), ("GBP",), Decimal("4"), Decimal(10)
    )
    book = drafting.read(raised.text).book
    assert book is not None
    assert {line.choice: line.amounts["GBP"] for line in book.lines if line.option == "body"} == {
        "roadster": 1_232_000,  # 11 850 × 1.04 = 12 324, to the nearest ten
        "coupe": 1_373_000,  # 13 200 × 1.04 = 13 728
    }
    assert raised.step.about == "+4 %"
    with pytest.raises(UnknownNames) as refused:
        drafting.raise_prices(desk.store, edit(raised), ("bodi.x",), ("GPB",), Decimal(1), Decimal(1))
    assert [fault.path for fault in refused.value.faults] == ["prices.0", "lists.0"]


def test_a_wrong_sheet_of_prices_is_told_line_by_line_and_changes_nothing(desk: Desk) -> None:
    draft = begun(desk)
    with pytest.raises(BadInput) as refused:
        drafting.paste_prices(desk.store, edit(draft), "price,GBP\nbody.cupe,1\n")
    assert refused.value.faults[0].facts == {
        "what": "the book prices nothing called “body.cupe”",
        "instead": "did you mean “body.coupe”?",
    }
    assert drafting.draft(desk.store, draft.id).step.version == 1


def test_a_text_is_reworded_in_its_place_and_one_that_is_not_there_is_not_found(desk: Desk) -> None:
    draft = begun(desk)
    here = at(draft, "option", "body")
    new = drafting.reword(desk.store, edit(draft), here, "label", 2, {"de": " Kupee \n", "fr": "Coupé"})
    assert entry(new, "option", "body").rows[2][:3] == ("coupe", "Coupé", "Kupee")
    with pytest.raises(NotFound):
        drafting.reword(desk.store, edit(new), here, "label", 9, {"de": "x"})


def test_a_condition_is_said_as_terms_whatever_else_is_wrong(desk: Desk) -> None:
    draft = begun(desk)
    found = saying.said(draft, "body is coupe and market is not home and bonnet is not usual")
    assert found.terms == Terms(
        True,
        (
            Term("body", How.IS, ("coupe",)),
            Term("market", How.IS_NOT, ("home",)),
            Term("bonnet", How.NOT_USUAL),
        ),
    )
    broken = drafting.write(desk.store, edit(draft), f"{draft.text}\nrulle N1\n")
    assert saying.said(broken, "series is the donor's").terms == Terms(True, (Term("series", How.DONORS),))
    assert saying.said(broken, "series is the donor's").book is None
    assert saying.said(draft, "donor series is s2").terms is None
    assert [mistake.what for mistake in saying.said(draft, "bodi is coupe").typed.mistakes] == [
        "there is no option “bodi”"
    ]


def test_a_draft_that_was_thrown_away_can_be_read_and_not_changed(desk: Desk) -> None:
    draft = begun(desk)
    drafting.throw_away(desk.store, edit(draft))
    assert drafting.draft(desk.store, draft.id).text == draft.text
    with pytest.raises(DraftClosed):
        drafting.take_out(desk.store, edit(draft), 0)
    assert [(one.id, one.is_open) for one in drafting.drafts(desk.store)] == [(draft.id, False)]


def test_what_is_not_there_is_not_found(desk: Desk) -> None:
    draft = begun(desk)
    for wrong in (Edit(MANAGER, 99, 1, NOW), edit(draft)):
        with pytest.raises(NotFound):
            drafting.take_out(desk.store, wrong, 10_000)


def test_a_text_that_a_draft_had_is_never_changed(desk: Desk) -> None:
    begun(desk)
    with desk.store.writing() as db, pytest.raises(sqlite3.IntegrityError, match="only grow"):
        db.execute("UPDATE book_draft_texts SET text = ''")
