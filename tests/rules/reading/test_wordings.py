"""Texts of papers and letters in the firm's own words: read with their line ends, refused where nothing fills them."""

from __future__ import annotations

import pytest

from rules.reading import BookMistakes, read_book
from rules.wordings import spoken, written
from rules.writing import write_book
from tests.rules.demo_book import FILE

TEXT = FILE.read_text("utf-8")
OWN = """
wording letter-moved
  text en: Dear {name}, ¶ ¶ your shell moves to {from}.
    ¶ {author}
  text de: Guten Tag {name}, ¶ ¶ Ihre Karosserie kommt am {from}. ¶ {author}
"""


def test_a_line_end_is_read_and_written_again() -> None:
    book = read_book(TEXT + OWN, "x")
    assert book.wording("letter-moved", "en") == "Dear {name},\n\nyour shell moves to {from}.\n{author}"
    assert (book.wording("letter-moved", "fr"), book.wording("letter-offer", "en")) == (None, None)
    assert read_book(write_book(book), "x").wordings == book.wordings


@pytest.mark.parametrize("text", ["One line.", "Two\nlines.", "A paragraph.\n\nAnother, {name}.\nBye"])
def test_a_text_is_the_same_after_it_was_written_on_one_line(text: str) -> None:
    assert "\n" not in written(text)
    assert spoken(written(text)) == text


@pytest.mark.parametrize(
    ("text", "stray"),
    [
        ("Dear {nobody}", "{nobody}"),
        ("Dear {name.__class__}", "{name.__class__}"),
        ("Dear {name!r}", "{name!r}"),
        ("Dear {0}", "{0}"),
        ("Dear {}", "{}"),
        ("Dear {name", "{"),
        ("Dear name}", "}"),
        ("Dear {{name}}", "{"),
    ],
)
def test_what_nothing_fills_is_refused(text: str, stray: str) -> None:
    with pytest.raises(BookMistakes) as found:
        read_book(f"{TEXT}\nwording letter-moved\n  text en: {text}\n  text de: Hallo {{name}}\n", "x")
    assert [mistake.what for mistake in found.value.mistakes] == [f"nothing fills “{stray}” in “text en”"]


def test_only_texts_that_there_are_can_be_worded_each_once_and_in_every_language() -> None:
    text = f"{TEXT}\nwording close-waranty-default\n  text en: Two years.\n  text de: Zwei Jahre.\n"
    with pytest.raises(BookMistakes) as found:
        read_book(text, "x")
    assert [mistake.instead for mistake in found.value.mistakes] == ["did you mean “close-warranty-default”?"]
    with pytest.raises(BookMistakes) as twice:
        read_book(TEXT + OWN + OWN.replace("  text de: Guten", "  text de: Lieber"), "x")
    assert len(twice.value.mistakes) == 1
    with pytest.raises(BookMistakes) as half:
        read_book(f"{TEXT}\nwording tag-yours\n  text en: Yours.\n", "x")
    assert [mistake.what for mistake in half.value.mistakes] == ["wording tag-yours has no “text de”"]
