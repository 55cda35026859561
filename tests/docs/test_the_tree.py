"""The guides to the tree name what is there, and nothing that isn't."""

from __future__ import annotations

import re
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]


def test_every_module_of_the_engine_stands_in_its_readme() -> None:
    there = {path.stem for path in (TOP / "rules").iterdir() if path.suffix == ".py" or (path / "__init__.py").exists()}
    rows = re.findall(r"^\| (`.+?) \|", (TOP / "rules/README.md").read_text(), re.MULTILINE)
    assert {name for row in rows for name in re.findall(r"`(\w+)`", row)} == there - {"__init__"}


def test_every_path_that_the_contributors_guide_names_is_there() -> None:
    named = re.findall(r"`((?:app|rules|tests|docs|demo|frontend)/[\w./-]*)`", (TOP / "DEVELOPERS.md").read_text())
    assert [path for path in named if not (TOP / path).exists()] == []
