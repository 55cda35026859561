"""Every text that is shown is set as a printer would: ’ “ ” in English, „ “ in German, … and no typewriter's signs."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from typing import Any

import pytest

from tests.docs.test_the_tree import TOP

TABLES = sorted((*TOP.glob("app/words/*.toml"), *TOP.glob("app/documents/words/*.toml")))
PAGES = sorted((TOP / "frontend/words").glob("*.js"))
LINE = re.compile(r"^  '(?P<key>[^']+)': '(?P<text>.*)',$", re.MULTILINE)

#: Apostrophe and inch mark, foot mark, and three full stops.
TYPEWRITTEN = re.compile(r"['\"]|\.\.\.|´|`")
#: A word of the rule book's own text, which is typed.
TYPED = "donor's"
#: Opening and closing, as the Unicode CLDR has them (characters, delimiters): en, de.
QUOTED = {"en": re.compile(r"“[^“”„]*”"), "de": re.compile(r"„[^“”„]*“")}


def texts_of(table: dict[str, Any], path: str = "") -> Iterator[tuple[str, str]]:
    for key, value in table.items():
        if isinstance(value, dict):
            yield from texts_of(value, f"{path}{key}.")
        else:
            yield f"{path}{key}", value


def language_of(name: str) -> str:
    return "de" if re.search(r"\bde\b", name) else "en"


def every_text() -> Iterator[tuple[str, str, str]]:
    """Language, place and text."""
    for file in TABLES:
        for key, text in texts_of(tomllib.loads(file.read_text("utf-8"))):
            yield language_of(file.name), f"{file.name} {key}", text
    for file in PAGES:
        for found in LINE.finditer(file.read_text("utf-8")):
            yield language_of(file.name), f"{file.name} {found['key']}", found["text"]


def test_every_file_of_words_is_read() -> None:
    files = {place.split(" ")[0] for _, place, _ in every_text()}
    assert files == {file.name for file in (*TABLES, *PAGES)}
    assert {"en.js", "de.js", "en.toml", "advice.de.toml"} <= files


def test_no_text_is_typewritten() -> None:
    assert [(place, text) for _, place, text in every_text() if TYPEWRITTEN.search(text.replace(TYPED, ""))] == []


@pytest.mark.parametrize("language", ["en", "de"])
def test_what_is_quoted_is_quoted_as_its_language_does(language: str) -> None:
    texts = [(place, QUOTED[language].sub("", text)) for spoken, place, text in every_text() if spoken == language]
    assert [(place, text) for place, text in texts if re.search("[“”„‚‘]", text)] == []


def test_the_demo_book_s_own_texts_are_set_likewise() -> None:
    spoken = re.compile(r"^\s*(?:label|title|reason|clause|text|help)(?: \w+)?: (.+)$", re.MULTILINE)
    texts = spoken.findall((TOP / "demo/skerry.book").read_text("utf-8"))
    assert len(texts) > 200
    assert [text for text in texts if TYPEWRITTEN.search(text)] == []
