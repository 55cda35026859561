"""What is wrong with a rule book is told in the reader's language: the same facts in sentences of its own."""

from __future__ import annotations

import ast
import re
import tomllib
from collections.abc import Iterator

import pytest

from app.wording import told
from rules.reading import BookMistakes, read_book
from rules.reading.mistakes import joined, sentence
from tests.rules.reading.test_mistakes import CHANGES, SOUND
from tests.support.product import TOP

FILE = tomllib.loads((TOP / "app" / "words" / "mistakes-de.toml").read_text("utf-8"))


def templates() -> Iterator[str]:
    """Every sentence that the code makes a mistake of."""
    for file in (*(TOP / "rules").rglob("*.py"), TOP / "app/services/books/publishing.py"):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "sentence":
                (template,) = (arg.value for arg in node.args if isinstance(arg, ast.Constant))
                yield str(template)


def slots(text: str) -> set[str]:
    return set(re.findall(r"(?<!{){(\w+)}(?!})", text))


def test_every_sentence_of_the_reader_has_its_german_with_the_same_slots_and_no_other_has() -> None:
    assert set(FILE["sentences"]) == set(templates())
    assert [one for one, german in FILE["sentences"].items() if slots(one) != slots(german)] == []
    english = {one for one in FILE["sentences"] if re.search("[a-z]", re.sub("{.*?}", "", one))}
    assert [one for one in english if FILE["sentences"][one] == one] == []


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (("rule N1", "ruel N1"), "es gibt keine Blockart „ruel“: meinten Sie „rule“?"),
        (("  days: 2\n", "  days: two\n"),
         "„two“ taugt nicht als Zahl von Arbeitstagen: schreiben Sie eine ganze Zahl von 0 bis 1000"),
        (("never: body", "never: boddy"), "unbekannt (Option): „boddy“: meinten Sie „body“?"),
        (("stage framing", "stage the framing jig"),
         "„stage the framing jig“ nennt nicht genau einen Namen für Stufe: schreiben Sie „stage ein-name“: "
         "ein Wort aus Buchstaben, Ziffern und Bindestrichen"),
    ],
)  # fmt: skip
def test_a_mistake_is_told_in_german_with_the_author_s_own_words_in_it(change: tuple[str, str], said: str) -> None:
    with pytest.raises(BookMistakes) as found:
        read_book(SOUND.replace(*change, 1), "x")
    (mistake,) = found.value.mistakes
    assert f"{told(mistake.what, 'de')}: {told(mistake.instead, 'de')}" == said
    assert told(mistake.what, "fr") == mistake.what


def test_every_mistake_that_a_test_makes_can_be_told_and_no_slot_is_left() -> None:
    for old, new in ((change[0], change[1]) for change in CHANGES):
        with pytest.raises(BookMistakes) as found:
            read_book(SOUND.replace(old, new, 1), "x")
        for mistake in found.value.mistakes:
            assert told(mistake.what, "de") != mistake.what
            assert told(mistake.instead, "de") != mistake.instead


def test_words_of_ours_are_translated_and_the_author_s_are_not() -> None:
    unknown = sentence("there is no {what} “{word}”", what="option", word="option")
    assert told(unknown, "de") == "unbekannt (Option): „option“"
    speaks = joined([sentence("“{word}”", word="never"), "part", "needs"])
    both = sentence("{name} says {speaks}", name="rule N1", speaks=speaks)
    assert told(both, "de") == "rule N1 sagt „never“ und part und needs"
