"""python -m tests.bench [FILE]: every row, as a table and as JSON (build/bench.json)."""

from __future__ import annotations

import json
import os
import platform
import sys
from pathlib import Path
from time import perf_counter

from tests.bench import dates, desk, engine, growth, outlook
from tests.bench.rows import Row

FILE = Path("build") / "bench.json"


def main(words: list[str]) -> int:
    file, began, rows = Path(words[0]) if words else FILE, perf_counter(), list[Row]()
    print(f"Python {platform.python_version()}, {os.cpu_count()} cores, load {_load()} at the beginning")
    for part in (engine.all_rows(), dates.all_rows(), growth.all_rows(), outlook.all_rows(), desk.all_rows()):
        for row in part:
            rows.append(row)
            print(_line(row), flush=True)
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(json.dumps([row.data() for row in rows], indent=1) + "\n", encoding="utf-8")
    print(f"{file}; {perf_counter() - began:.0f} s, load {_load()} at the end")
    return 0


def _load() -> str:
    return ", ".join(f"{load:.1f}" for load in os.getloadavg())


def _line(row: Row) -> str:
    reference = "–" if row.reference is None else f"{row.reference:.2f}"
    ratio = "–" if row.ratio is None else f"{row.ratio:.2f}"
    return f"{row.name:30} {row.value:10.2f} {row.unit:10} {reference:>10} {ratio:>8}   {row.note}"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
