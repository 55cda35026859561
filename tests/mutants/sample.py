"""Which mutants are looked at, and what became of them: read from the files that mutmut keeps beside its mutants."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Mapping
from hashlib import sha256
from pathlib import Path

#: mutmut's exit codes (mutmut/stats.py): what a run on a mutant ended with → what that means.
KILLED, SURVIVED, NO_TESTS, TIME_OUT = "killed", "survived", "no test calls it", "time-out"
ENDED = {1: KILLED, 3: KILLED, 0: SURVIVED, 5: NO_TESTS, 33: NO_TESTS, 24: TIME_OUT, 36: TIME_OUT, -24: TIME_OUT,
         152: TIME_OUT, 255: TIME_OUT}  # fmt: skip
TIMED_OUT = 24
NOT_YET, ODD = "not looked at", "ended oddly"


def mutants_of(folder: Path) -> dict[str, int | None]:
    """Mutant → the exit code of its run; None: not looked at. In one order."""
    found: dict[str, int | None] = {}
    for file in sorted((folder / "mutants" / "rules").rglob("*.meta")):
        found |= json.loads(file.read_text(encoding="utf-8"))["exit_code_by_key"]
    return dict(sorted(found.items()))


def drawn(names: Iterable[str], size: int, seed: int) -> list[str]:
    """The sample: each mutant's lot hangs on its name and the seed alone, so that a change moves only its own."""
    return sorted(names, key=lambda name: sha256(f"{seed}/{name}".encode()).digest())[:size]


def became(code: int | None) -> str:
    return NOT_YET if code is None else ENDED.get(code, ODD)


def told(sample: list[str], codes: Mapping[str, int | None], seed: int) -> list[str]:
    """The figure, the sample, the seed, and what is left to look at."""
    counted = Counter(became(codes.get(name)) for name in sample)
    done = len(sample) - counted[NOT_YET]
    noticed = counted[KILLED] + counted[TIME_OUT]
    share = f"{100 * noticed / done:.1f} %" if done else "nothing yet"
    parts = ", ".join(f"{what} {count}" for what, count in sorted(counted.items()))
    escaped = [(became(codes.get(name)), name) for name in sample]
    listed = [f"  {what}: {name}" for what, name in sorted(escaped) if what in (SURVIVED, NO_TESTS, ODD)]
    return [
        *listed,
        parts,
        f"{share} of {done} mutants noticed (sample of {len(sample)} out of {len(codes)}, seed {seed})",
    ]
