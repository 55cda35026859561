"""python -m tests.bench [ROW …] [--file build/bench.json]: what things take, as a table and as JSON.

ROW: how the names of the rows begin that are measured alone, as `store_growth_requests`; without one every row. A part
of them is written to no file but the one that is asked for.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import sys
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from time import perf_counter

from tests.bench import dates, desk, engine, growth, outlook
from tests.bench.rows import Row

FILE = Path("build") / "bench.json"

Measures = tuple[tuple[Callable[[], Iterator[Row]], tuple[str, ...]], ...]

#: What is measured at once, and how the names of its rows begin; growth, of each question by itself, comes between.
ENGINE_AND_DATES: Measures = (
    (partial(engine.full_answer, engine.FULL), ("full_answer",)),
    (partial(engine.growth, engine.FULL), ("full_answer_growth", "nodes_growth")),
    (partial(engine.compiling, engine.FULL), ("compile",)),
    (partial(engine.explaining, engine.FULL), ("reason", "all_reasons")),
    (partial(engine.alternatives, engine.FULL), ("alternatives",)),
    (partial(engine.comparing, engine.FULL), ("compare_books",)),
    (partial(engine.rechecking, engine.FULL), ("recheck",)),
    (dates.growth, ("promise_growth",)),
)
DESK: Measures = (
    (outlook.outlook, ("outlook",)),
    (desk.http_check, ("http_check", "http_check_gated")),
    (desk.pdf_quotation, ("pdf_quotation",)),
)


def main(words: list[str]) -> int:
    given, began, rows = _given(words), perf_counter(), list[Row]()
    print(f"Python {platform.python_version()}, {os.cpu_count()} cores, load {_load()} at the beginning")
    for row in measured(given.rows):
        rows.append(row)
        print(_line(row), flush=True)
    file = given.file or (None if given.rows else FILE)
    if file is not None:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(json.dumps([row.data() for row in rows], indent=1) + "\n", encoding="utf-8")
    print(f"{file or 'no file'}; {perf_counter() - began:.0f} s, load {_load()} at the end")
    return 0


def measured(names: Sequence[str]) -> Iterator[Row]:
    """The rows whose names begin with one of `names`; all where there is none."""
    asked = [question for question in growth.QUESTIONS if _wanted(question.row, names)]
    for measures in (ENGINE_AND_DATES, ((partial(growth.growth, questions=asked), _rows_of(asked)),), DESK):
        for measure, begin in measures:
            if any(_may_hold(one, names) for one in begin):
                yield from (row for row in measure() if _wanted(row.name, names))


def _rows_of(asked: Sequence[growth.Question]) -> tuple[str, ...]:
    return tuple(question.row for question in asked)


def _wanted(row: str, names: Sequence[str]) -> bool:
    return not names or row.startswith(tuple(names))


def _may_hold(begin: str, names: Sequence[str]) -> bool:
    """Whether a row that begins so may be one of them."""
    return not names or any(begin.startswith(name) or name.startswith(begin) for name in names)


def _given(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("rows", nargs="*", metavar="ROW", help="how the names begin of rows that are measured alone")
    parser.add_argument("--file", type=Path, help=f"where to write them; {FILE} where all are measured")
    given = parser.parse_args(words)
    begun = [*(name for _, names in (*ENGINE_AND_DATES, *DESK) for name in names), *_rows_of(growth.QUESTIONS)]
    for name in given.rows:
        if not any(_may_hold(one, [name]) for one in begun):
            parser.error(f"No row begins with {name}. There are: {', '.join(begun)}")
    return given


def _load() -> str:
    return ", ".join(f"{load:.1f}" for load in os.getloadavg())


def _line(row: Row) -> str:
    reference = "–" if row.reference is None else f"{row.reference:.2f}"
    ratio = "–" if row.ratio is None else f"{row.ratio:.2f}"
    return f"{row.name:30} {row.value:10.2f} {row.unit:10} {reference:>10} {ratio:>8}   {row.note}"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
