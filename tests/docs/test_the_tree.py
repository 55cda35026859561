"""The guides to the tree name what is there, and nothing that isn't."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[2]


#: Told in one line each: what is in them is one thing.
WHOLE = {"reading", "writing", "drafting"}


def test_every_module_of_the_engine_stands_in_its_readme() -> None:
    engine, told = TOP / "rules", (TOP / "rules/README.md").read_text()
    there = {path.relative_to(engine).with_suffix("").as_posix() for path in engine.rglob("*.py")}
    assert set(modules_told(told)) == {name for name in there if name.split("/")[0] not in WHOLE | {"__init__"}} - {
        f"{path.parent.name}/__init__" for path in engine.rglob("__init__.py")
    }
    assert set(re.findall(r"^\| `(\w+)/` \|", told, re.MULTILINE)) == WHOLE


@pytest.mark.parametrize("name", ["services", "domain"])
def test_every_folder_stands_in_its_readme(name: str) -> None:
    folder = TOP / "app" / name
    told = re.findall(r"^\| `(\w+)/` \|", (folder / "README.md").read_text(), re.MULTILINE)
    assert sorted(told) == sorted(path.parent.name for path in folder.glob("*/__init__.py"))


def test_every_module_of_the_papers_stands_in_its_readme() -> None:
    papers = TOP / "app/documents"
    there = {path.relative_to(papers).with_suffix("").as_posix() for path in papers.rglob("*.py")}
    inner = {name for name in there if name.count("/") > 1 or name.endswith("__init__")}
    told = set(modules_told((papers / "README.md").read_text()))
    assert told == there - inner


def modules_told(text: str) -> Iterator[str]:
    """folder/module as the page has it: the heading says the folder, or none."""
    for heading, section in re.findall(r"^## (.+)\n((?:(?!## ).*\n?)*)", text, re.MULTILINE):
        folder = "".join(re.findall(r"^`(\w+/)`", heading))
        for row in re.findall(r"^\| (`.+?`) \|", section, re.MULTILINE):
            yield from (folder + name for name in re.findall(r"`(\w+)`", row))


def test_every_path_that_the_contributors_guide_names_is_there() -> None:
    named = re.findall(r"`((?:app|rules|tests|docs|demo|frontend)/[\w./-]*)`", (TOP / "DEVELOPERS.md").read_text())
    assert [path for path in named if not (TOP / path).exists()] == []


def test_decisions_are_numbered_one_after_the_other() -> None:
    numbers = re.findall(r"^## (\d+)\. ", (TOP / "docs/decisions.md").read_text(), re.MULTILINE)
    assert [int(number) for number in numbers] == list(range(1, len(numbers) + 1))
