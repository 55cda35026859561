"""What a machine without the means is told: what is missing and how to get it. Nothing of this tree is touched."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]


def set_up_with(python: str) -> tuple[int, str]:
    told = subprocess.run(
        [".ci/set-up", "product"],
        cwd=TOP,
        env={**os.environ, "PYTHON": python},
        capture_output=True,
        text=True,
        check=False,
    )
    return told.returncode, told.stderr.strip()


def stand_in(folder: Path, script: str) -> str:
    """A program that answers as some Python would."""
    program = folder / "python"
    program.write_text(f"#!/bin/sh\n{script}\n")
    program.chmod(0o755)
    return str(program)


def test_without_python_it_says_what_to_install() -> None:
    assert set_up_with("python-of-nowhere") == (
        1,
        "There is no python-of-nowhere here. On Debian: apt-get install python3 python3-venv",
    )


def test_an_older_python_is_named_with_the_version_that_is_needed(tmp_path: Path) -> None:
    old = stand_in(tmp_path, 'case "$1" in -V) echo Python 3.9.2;; *) exit 1;; esac')
    code, told = set_up_with(old)
    assert code == 1
    assert told.startswith(f"Python 3.11 or newer is needed; {old} is Python 3.9.2.")


def test_a_python_without_venv_is_told_debians_package(tmp_path: Path) -> None:
    bare = stand_in(tmp_path, 'case "$2" in *ensurepip*) exit 1;; *) exit 0;; esac')
    assert set_up_with(bare) == (1, "Python's venv module is missing. On Debian: apt-get install python3-venv")
