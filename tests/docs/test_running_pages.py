"""The pages for whoever runs the desk and whoever begins at it: every command parses, every picture is there."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from app.cli import parser

TOP = Path(__file__).resolve().parents[2]
DOCS = TOP / "docs"


def commands_of(page: str) -> list[list[str]]:
    """The arguments of every `python -m app …` in the page."""
    text = (DOCS / page).read_text(encoding="utf-8")
    return [shlex.split(line) for line in re.findall(r"python -m app (.+)$", text, flags=re.MULTILINE)]


def test_every_command_of_the_running_page_is_one() -> None:
    told = commands_of("running.md")
    assert {words[0] for words in told} == {"add-person", "publish-book", "serve"}
    for words in told:
        assert parser().parse_args(words).command


@pytest.mark.parametrize("page", ["running.md", "first-quarter-hour.md"])
def test_every_make_target_named_is_one(page: str) -> None:
    makefile = (TOP / "Makefile").read_text(encoding="utf-8")
    named = set(re.findall(r"`?\bmake ([a-z][a-z-]+)(?= |`|$)", (DOCS / page).read_text(encoding="utf-8"))) - {"a"}
    assert named
    assert named <= set(re.findall(r"^([a-z][a-z-]*):", makefile, flags=re.MULTILINE))


def test_every_picture_is_shown_and_every_one_shown_is_there() -> None:
    shown = set(re.findall(r"\]\(pictures/([^)]+)\)", (DOCS / "first-quarter-hour.md").read_text(encoding="utf-8")))
    assert shown == {path.name for path in (DOCS / "pictures").iterdir()}
