"""The table of who may do what, and the commands, stand in docs/ as they are in the code."""

from __future__ import annotations

import re
from pathlib import Path

from app.cli import parser
from app.domain.asking.people import MAY, Reach, Role

DOCS = Path(__file__).resolve().parents[2] / "docs"
SAID = {Reach.EVERY: "yes", Reach.OWN: "own", None: "–"}


def test_the_table_of_who_may_do_what_is_the_codes_own() -> None:
    rows = re.findall(r"^\| ([a-z-]+ [a-z-]+) \| (.*) \|$", (DOCS / "api.md").read_text(encoding="utf-8"), re.M)
    written = {name: cells.split(" | ") for name, cells in rows if len(cells.split(" | ")) == len(Role)}
    order = [Role(name) for name in ("clerk", "dealer", "lead", "inspector", "welder", "manager")]
    assert written == {
        f"{action.value} {sort.value}": [SAID[roles.get(role)] for role in order]
        for (action, sort), roles in MAY.items()
    }


def test_every_command_and_each_of_its_settings_is_written_down() -> None:
    text = (DOCS / "commands.md").read_text(encoding="utf-8")
    (commands,) = (action for action in parser()._actions if hasattr(action, "choices") and action.choices)
    for name, command in dict(commands.choices or {}).items():
        line = next(line for line in text.splitlines() if line.startswith(f"| `{name} "))
        for action in command._actions:
            for option in action.option_strings:
                assert option in (*line.split(), "-h", "--help") or option in line, (name, option)
