"""Mutants that survived, looked at once more, each in a process of its own.

mutmut forks its processes from one that has imported everything and has read the rule book: what was worked out
there, at import or once for all, knows nothing of the mutant, so that some survive whom the tests notice.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path

from tests.mutants.sample import TIMED_OUT

#: Seconds; whoever takes longer is one that used up its time.
LONGEST = 240
PYTEST = ("-q", "-x", "-p", "tests.mutants.fixed", "--hypothesis-seed=1", "-p", "no:cacheprovider")


def found_alone(folder: Path) -> dict[str, int]:
    """Mutant → what its own process ended with, as far as it was looked at."""
    file = folder / "alone.json"
    found: dict[str, int] = json.loads(file.read_text(encoding="utf-8")) if file.exists() else {}
    return found


def look_alone(folder: Path, name: str, options: Sequence[str] = PYTEST) -> tuple[str, int]:
    """The mutant, and what the files of tests that call its function ended with, the quickest first."""
    return name, _run(folder / "mutants", name, [*options, *_tests(folder, name)])


def keep_alone(folder: Path, name: str, code: int) -> None:
    """Puts it beside what was found before."""
    _keep(folder, {**found_alone(folder), name: code})


def forget(folder: Path, names: Iterable[str]) -> None:
    """What is to be looked at anew."""
    gone = frozenset(names)
    _keep(folder, {name: code for name, code in found_alone(folder).items() if name not in gone})


def _keep(folder: Path, found: dict[str, int]) -> None:
    (folder / "alone.json").write_text(json.dumps(found, indent=1, sort_keys=True), encoding="utf-8")


def _tests(folder: Path, name: str) -> list[str]:
    """Whole files: of tests that share what one of them works out, mutmut knows only that one as a caller."""
    told = json.loads((folder / "mutants" / "mutmut-stats.json").read_text(encoding="utf-8"))
    took: dict[str, float] = {}
    for test in told["tests_by_mangled_function_name"].get(name.rpartition("__mutmut_")[0], []):
        file = test.partition("::")[0]
        took[file] = took.get(file, 0) + told["duration_by_test"].get(test, 0)
    return sorted(took, key=took.__getitem__)


def _run(where: Path, name: str, words: list[str]) -> int:
    around = {**os.environ, "MUTANT_UNDER_TEST": name}
    command = [sys.executable, "-m", "pytest", *words]
    try:
        return subprocess.run(command, cwd=where, env=around, timeout=LONGEST, capture_output=True).returncode
    except subprocess.TimeoutExpired:
        return TIMED_OUT
