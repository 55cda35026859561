"""Every text of a book side by side in its languages: what lacks is found, and a text is changed in its own place."""

from __future__ import annotations

from pathlib import Path

import pytest

from rules.drafting import sheet_of
from rules.drafting.wording import Worded, with_words, words_of
from rules.reading import BookMistakes, read_book

TEXT = (Path(__file__).parents[3] / "demo" / "skerry.book").read_text(encoding="utf-8")
SHEET = sheet_of(TEXT)


def one(kind: str, name: str, field: str, of: str = "") -> Worded:
    (found,) = (w for w in words_of(SHEET) if (w.kind, w.name, w.field, w.of) == (kind, name, field, of))
    return found


def test_every_reason_label_and_caution_of_the_demo_book_is_there_in_both_languages() -> None:
    words, book = words_of(SHEET), read_book(TEXT, "x")
    assert sum(w.field == "reason" for w in words) == len(book.rules) + len(book.tools)
    assert sum(w.kind == "option" and w.row is not None for w in words) == sum(len(o.choices) for o in book.options)
    assert sum(w.kind == "caution" for w in words) == len(book.cautions)
    assert [w for w in words if w.missing] == []


def test_a_text_is_changed_in_its_own_line_alone() -> None:
    new = with_words(SHEET, one("rule", "N4", "reason"), {"en": "No roof.", "de": "Kein Dach."}).text().split("\n")
    changed = [line for line, old in zip(new, TEXT.split("\n"), strict=True) if line != old]
    assert changed == ["  reason en: No roof.", "  reason de: Kein Dach."]


def test_a_label_in_a_table_is_changed_in_its_row() -> None:
    book = read_book(with_words(SHEET, one("option", "body", "label", "coupe"), {"de": "Kupee"}).text(), "x")
    assert book.option("body").choice("coupe").label == {"en": "Coupé", "de": "Kupee"}


def test_a_text_that_one_language_lacks_is_found_and_may_be_taken_out_of_both() -> None:
    half = with_words(SHEET, one("rule", "N1", "title"), {"de": ""})
    assert [(w.kind, w.name, w.field) for w in words_of(half) if w.missing] == [("rule", "N1", "title")]
    none = with_words(SHEET, one("rule", "N1", "title"), {"en": "", "de": ""})
    assert read_book(none.text(), "x").rule("N1").title == {}


def test_a_placeholder_that_nothing_fills_is_refused() -> None:
    held = with_words(SHEET, one("rule", "N4", "reason"), {"en": "A {body} has no roof."})
    with pytest.raises(BookMistakes) as found:
        read_book(held.text(), "x")
    assert [(m.what, m.instead) for m in found.value.mistakes] == [
        ("nothing fills “{body}” in “reason en”", "write the words themselves, or take the braces out")
    ]
    with pytest.raises(BookMistakes) as found:
        read_book(with_words(SHEET, one("option", "body", "label", "coupe"), {"de": "{x}"}).text(), "x")
    assert [m.what for m in found.value.mistakes] == ["nothing fills “{x}” in “de”"]
