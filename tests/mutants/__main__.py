"""python -m tests.mutants [--size 520] [--seed 1] [--minutes 55] [--jobs 2]: how many small faults the tests notice.

mutmut makes the mutants of `rules/` and runs, for each, the tests that call its function, the quickest first, until one
fails; who survives, or uses up its time, is tried once more in a process of its own. Which mutants are looked at is
drawn by the seed. What was found is kept in build/mutants: the same command goes on from there, also after a change,
which makes only the mutants of changed functions new.
"""

from __future__ import annotations

import argparse
import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from functools import partial
from pathlib import Path
from time import monotonic
from typing import IO

from tests.mutants.alone import forget, found_alone, keep_alone, look_alone
from tests.mutants.sample import NOT_YET, SURVIVED, TIME_OUT, became, drawn, mutants_of, told

TOP = Path(__file__).resolve().parents[2]
WORK = TOP / "build" / "mutants"
#: What the tests of `rules/` read. Not run are CEN's own rules, which look at documents, and the largest book.
COPIED = (
    "rules",
    "app",
    "demo",
    "tests/__init__.py",
    "tests/rules",
    "tests/cases",
    "tests/fuzz",
    "tests/mutants",
    "tests/support",
)
TOLD = WORK / "mutants" / "mutmut-stats.json"
#: Seconds between two words on how far it has come.
PAUSE = 120
#: A name that no mutant has: mutmut makes the mutants, sees which test calls what, and says that there is none such.
NOBODY = "rules.nobody"
#: mutmut leaves alone what is decorated and what runs at import; a mutant may take three times what its tests take, and
#: ten seconds.
SETTINGS = """\
[tool.mutmut]
source_paths = ["rules"]
also_copy = ["app", "demo", "tests"]
pytest_add_cli_args = ["-p", "tests.mutants.fixed", "--hypothesis-seed=1", "-p", "no:cacheprovider"]
pytest_add_cli_args_test_selection = [
    "tests/rules",
    "tests/cases/test_cases_dates.py",
    "tests/cases/test_case_29.py",
    "--ignore=tests/rules/money/test_cen_rules.py",
    "--deselect=tests/rules/engine/test_without_a_diagram.py::test_a_tangled_book_answers_and_explains_as_a_solver_does[300-3]",
]
process_isolation = "forkserver"
timeout_multiplier = 3
timeout_constant = 10.0
use_git_change_detection = false

[tool.pytest.ini_options]
pythonpath = ["."]
addopts = "--import-mode=importlib"
"""


def main(words: list[str]) -> int:
    given = _given(words)
    until = monotonic() + given.minutes * 60
    _lay()
    if not _mutmut(given.jobs, [NOBODY], until):
        return _stop("Making the mutants took all the time.")
    if not TOLD.exists():
        raise SystemExit(f"The tests don't pass as they are. What mutmut wrote stands in {WORK / 'mutmut.log'}.")
    codes = mutants_of(WORK)
    sample = drawn(codes, given.size, given.seed)
    print(f"{len(codes)} mutants; a sample of {len(sample)}, seed {given.seed}", flush=True)
    wanted = (NOT_YET, SURVIVED) if given.again else (NOT_YET,)
    left = [name for name in sample if became(codes[name]) in wanted]
    forget(WORK, left)
    if left:
        _mutmut(given.jobs, left, until, lambda: print(told(sample, _codes(), given.seed)[-1], flush=True))
    _alone(given.jobs, [name for name in sample if became(mutants_of(WORK)[name]) in (SURVIVED, TIME_OUT)], until)
    codes = _codes()
    print("\n".join(told(sample, codes, given.seed)))
    return _stop("The time is up.") if any(became(codes[name]) == NOT_YET for name in sample) else 0


def _codes() -> dict[str, int | None]:
    return {**mutants_of(WORK), **found_alone(WORK)}


def _alone(jobs: int, survived: list[str], until: float) -> None:
    """As many as there is time for."""
    left = [name for name in survived if name not in found_alone(WORK)]
    with ThreadPoolExecutor(jobs) as processes:
        for found in processes.map(partial(_look, until), left):
            if found is not None:
                keep_alone(WORK, *found)


def _look(until: float, name: str) -> tuple[str, int] | None:
    return look_alone(WORK, name) if monotonic() < until else None


def _given(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutants")
    parser.add_argument("--size", type=int, default=520, help="how many mutants are drawn")
    parser.add_argument("--seed", type=int, default=1, help="which")
    parser.add_argument("--minutes", type=float, default=55, help="stop then; the same command goes on")
    parser.add_argument("--jobs", type=int, default=2, help="processes at once")
    parser.add_argument("--again", action="store_true", help="look once more at those that survived")
    return parser.parse_args(words)


def _stop(why: str) -> int:
    print(f"{why} The same command goes on from here.")
    return 1


def _lay() -> None:
    """A copy of what it takes, for mutmut writes beside what it reads."""
    WORK.mkdir(parents=True, exist_ok=True)
    for name in COPIED:
        source, target = TOP / name, WORK / name
        target.parent.mkdir(parents=True, exist_ok=True)
        if source.is_dir():
            shutil.rmtree(target, ignore_errors=True)
            shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy2(source, target)
    for name in ("tests", "app", "demo"):
        shutil.rmtree(WORK / "mutants" / name, ignore_errors=True)
    (WORK / "pyproject.toml").write_text(SETTINGS, encoding="utf-8")


def _mutmut(jobs: int, names: list[str], until: float, tell: Callable[[], None] = lambda: None) -> bool:
    """One run of mutmut over these mutants; False where the time ran out within."""
    command = [sys.executable, "-m", "mutmut", "run", "--max-children", str(jobs), *names]
    with (WORK / "mutmut.log").open("wb") as log, _started(command, log) as run:
        while run.poll() is None and monotonic() < until:
            with suppress(subprocess.TimeoutExpired):
                run.wait(max(0.1, min(PAUSE, until - monotonic())))
            tell()
        late = run.poll() is None
        if late:
            os.killpg(run.pid, signal.SIGTERM)
    if not late and run.returncode and names != [NOBODY]:
        raise SystemExit(f"mutmut ended with {run.returncode}. What it wrote stands in {WORK / 'mutmut.log'}.")
    return not late


def _started(command: list[str], log: IO[bytes]) -> subprocess.Popen[bytes]:
    """In a process group of its own, so that it ends with all that it has started."""
    return subprocess.Popen(command, cwd=WORK, stdout=log, stderr=log, stdin=subprocess.DEVNULL, start_new_session=True)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
