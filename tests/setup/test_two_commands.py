"""The README promises two commands on a fresh machine: they are there, and hand on what they are given."""

from __future__ import annotations

import os
import re
import subprocess
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]


def commands_of_the_readme() -> list[str]:
    """Every line of every shell block of the README, in order."""
    blocks = re.findall(r"^```sh\n(.*?)^```", (TOP / "README.md").read_text(), flags=re.MULTILINE | re.DOTALL)
    return [line.strip() for block in blocks for line in block.splitlines() if line.strip()]


def targets_named_in(text: str) -> set[str]:
    return set(re.findall(r"`?\bmake ((?!PYTHON)[a-z][a-z-]*)", text))


def dry_run(*words: str) -> subprocess.CompletedProcess[str]:
    """What make would do; nothing is done. As from a shell of its own, though the tests themselves run under make."""
    own = {name: value for name, value in os.environ.items() if name not in ("MAKEFLAGS", "MAKELEVEL", "MFLAGS")}
    return subprocess.run(["make", "-n", *words], cwd=TOP, env=own, capture_output=True, text=True, check=False)


def test_the_first_two_commands_of_the_readme_are_make_demo_and_make_test() -> None:
    assert commands_of_the_readme()[:2] == ["make demo", "make test"]


def test_make_knows_every_target_that_the_readme_names() -> None:
    targets = targets_named_in((TOP / "README.md").read_text())
    assert {"demo", "demo-reset", "test"} <= targets
    for target in sorted(targets):
        assert dry_run(target).returncode == 0, target


def test_make_help_names_every_target() -> None:
    makefile = (TOP / "Makefile").read_text()
    told = subprocess.run(["make", "-s"], cwd=TOP, capture_output=True, text=True, check=True).stdout
    targets = set(re.findall(r"^([a-z][a-z-]*):", makefile, flags=re.MULTILINE)) - {"help"}
    assert targets == targets_named_in(told)


def test_make_demo_hands_on_port_data_and_clock() -> None:
    plan = dry_run("demo", "PORT=9000", "DATA=/some where", "NOW=2026-11-25T09:00").stdout
    assert plan.splitlines()[-1].endswith("-m app demo --port '9000' --data '/some where' --now '2026-11-25T09:00'")


def test_make_demo_without_settings_leaves_them_to_the_product() -> None:
    plan = dry_run("demo", "PORT=", "DATA=", "NOW=").stdout
    assert plan.splitlines()[-1].strip() == "exec .venv/bin/python -m app demo"


def test_make_test_with_arguments_runs_pytest_alone() -> None:
    """A real run of the real command, kept short: only this file's own names are collected."""
    told = subprocess.run(
        [".ci/check", "--collect-only", "-q", "tests/setup/test_two_commands.py"],
        cwd=TOP,
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    assert "test_make_help_names_every_target" in told
    assert "mypy" not in told


def test_what_runs_on_every_change_is_make_test() -> None:
    assert (TOP / ".ci" / "run").read_text().rstrip().endswith("make --no-print-directory test")
