"""One word for one thing on screens, on papers and in what the service says: docs/glossary.md binds all three."""

from __future__ import annotations

import re
import tomllib

import pytest

from tests.support.product import TOP

ROWS = [
    [cell.strip() for cell in line.strip("|").split("|")]
    for line in (TOP / "docs" / "glossary.md").read_text(encoding="utf-8").splitlines()
    if line.startswith("| ")
][1:]
GERMAN = [
    *sorted((TOP / "frontend" / "words").glob("*de.js")),
    *sorted((TOP / "app" / "words").glob("*de.toml")),
    *sorted((TOP / "app" / "documents" / "words").glob("*de.toml")),
]

#: What the screen and the paper both say, and so must say alike: key of the screen, key of the paper.
PAIRS = [
    ("choice.usual", "specification.usual"),
    ("choice.chosen", "specification.chosen"),
    ("choice.forced", "specification.forced"),
    ("specification.title", "specification.heading"),
    ("papers.quotation", "head.title"),
    ("papers.draft", "head.draft"),
    ("depends.approval", "shells.approval"),
]


#: Beside the words of a rule book's own text the file of its mistakes quotes nothing.
QUOTED = re.compile("„[^“]*“|“[^”]*”")


def screen(language: str) -> dict[str, str]:
    text = (TOP / "frontend" / "words" / f"{language}.js").read_text(encoding="utf-8")
    return dict(re.findall(r"^  '([^']+)': '(.+)',$", text, re.MULTILINE))


def paper(language: str, key: str) -> str:
    tree = tomllib.loads((TOP / "app" / "documents" / "words" / f"{language}.toml").read_text(encoding="utf-8"))
    part, name = key.split(".")
    return str(tree[part][name])


@pytest.mark.parametrize("word", [word.strip() for row in ROWS for word in row[2].split(",")])
def test_no_german_text_uses_a_word_that_the_glossary_replaces(word: str) -> None:
    assert word
    either = rf"\b[{word[0]}{word[0].upper()}]{word[1:]}\w*"
    for file in GERMAN:
        text = file.read_text(encoding="utf-8")
        said = QUOTED.sub("", text) if file.name == "mistakes-de.toml" else text
        assert not re.findall(either, said), f"{file.name}: {word}"


@pytest.mark.parametrize("word", [word.strip() for row in ROWS for word in row[1].split(",")])
def test_every_german_word_of_the_glossary_is_used(word: str) -> None:
    assert any(word.removeprefix("die ") in file.read_text(encoding="utf-8") for file in GERMAN), word


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize(("on_screen", "on_paper"), PAIRS)
def test_screen_and_paper_say_the_same(language: str, on_screen: str, on_paper: str) -> None:
    said = screen(language)[on_screen].casefold()
    assert paper(language, on_paper).casefold().startswith(said)
