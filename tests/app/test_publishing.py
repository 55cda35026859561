from __future__ import annotations

import sqlite3
from datetime import timedelta

import pytest

from app.domain.errors import AlreadyPublished, BookRefused, NoBook, NotFound
from app.services.books import publishing
from app.store import books
from app.store.db import Store
from demo.loading import BOOK
from tests.app.desk import MANAGER, NOW, Desk

TEXT = BOOK.read_text(encoding="utf-8")

#: The same book with another reason to a rule, so that it is another book.
ANOTHER = TEXT.replace("A coupé has no hood.", "A coupé takes no hood.")


#: With metallic paint for nothing.
FREE = TEXT.replace("  times: 1.12", "  times: 0.00")


def test_books_are_numbered_as_they_are_published(desk: Desk) -> None:
    assert publishing.publish_book(desk.store, MANAGER, ANOTHER, NOW) == 2
    assert [entry.number for entry in publishing.published_books(desk.store)] == [2, 1]


def test_the_text_of_a_published_book_is_had_again_as_it_was(desk: Desk) -> None:
    assert publishing.book_text(desk.store, 1) == TEXT
    assert publishing.book(desk.store, 1).number == 1


def test_a_book_published_for_later_comes_into_force_then(desk: Desk) -> None:
    later = NOW + timedelta(days=5)
    publishing.publish_book(desk.store, MANAGER, ANOTHER, NOW, valid_from=later)
    assert publishing.current_book(desk.store, later - timedelta(seconds=1)).number == 1
    assert publishing.current_book(desk.store, later).number == 2


def test_going_back_is_publishing_again(desk: Desk) -> None:
    publishing.publish_book(desk.store, MANAGER, ANOTHER, NOW)
    assert publishing.publish_book(desk.store, MANAGER, TEXT, NOW) == 3
    assert publishing.current_book(desk.store, NOW).number == 3


def test_the_book_in_force_is_not_published_twice(desk: Desk) -> None:
    with pytest.raises(AlreadyPublished) as refused:
        publishing.publish_book(desk.store, MANAGER, TEXT, NOW)
    assert refused.value.facts == {"number": 1}


def test_a_book_with_mistakes_is_refused_with_all_of_them_and_nothing_is_published(desk: Desk) -> None:
    wrong = TEXT.replace("roadster", "roadstr", 1) + "\nnonsense here\nmore nonsense\n"
    with pytest.raises(BookRefused) as refused:
        publishing.publish_book(desk.store, MANAGER, wrong, NOW, file="skerry.book")
    assert len(refused.value.mistakes) >= 2
    assert all(mistake.file == "skerry.book" and mistake.line > 0 for mistake in refused.value.mistakes)
    assert len(publishing.published_books(desk.store)) == 1


def test_lines_are_given_away_in_words_or_not_at_all(desk: Desk) -> None:
    with pytest.raises(BookRefused) as refused:
        publishing.publish_book(desk.store, MANAGER, FREE, NOW)
    (mistake,) = refused.value.mistakes
    assert FREE.splitlines()[mistake.line - 1].strip() == "times: 0.00"
    assert str(mistake.what) == "“times: 0.00” would make these lines free of charge"
    waived = FREE.replace("times: 0.00", "waived: yes")
    assert publishing.publish_book(desk.store, MANAGER, waived, NOW) == 2
    assert [one.waives for one in publishing.book(desk.store, 2).adjustments][:1] == [True]


def test_a_book_that_gave_lines_away_before_that_had_to_be_said_is_read_as_it_was(desk: Desk) -> None:
    with desk.store.writing() as db:
        number = books.add(db, {"en": "Old", "de": "Alt"}, FREE, "piers", NOW, NOW, "")
    assert publishing.book(desk.store, number).adjustments[0].factor == 0


def test_a_desk_without_a_book_says_so(desk: Desk) -> None:
    empty = Store(desk.store.path.with_name("empty.sqlite3"))
    with pytest.raises(NoBook):
        publishing.current_book(empty, NOW)


def test_a_number_that_was_never_given_is_not_found(desk: Desk) -> None:
    with pytest.raises(NotFound):
        publishing.book(desk.store, 99)


@pytest.mark.parametrize("act", ["UPDATE books SET text = ''", "DELETE FROM books"])
def test_a_published_book_can_neither_be_changed_nor_taken_out(desk: Desk, act: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="books only grow"), desk.store.writing() as db:
        db.execute(act)


def test_a_book_that_names_an_element_which_nobody_can_draw_is_refused_with_its_line(desk: Desk) -> None:
    text = TEXT.replace("| body/coupe ", "| body/cuope ")
    with pytest.raises(BookRefused) as refused:
        publishing.publish_book(desk.store, MANAGER, text, NOW, file="skerry.book")
    (mistake,) = refused.value.mistakes
    assert text.split("\n")[mistake.line - 1].split() == ["|", "body", "|", "coupe", "|", "body/cuope", "|"]
    assert (mistake.what, mistake.instead) == ("the line art has no element “body/cuope”", "did you mean “body/coupe”?")
