"""Two texts line by line: what only the one has and what only the other has, with a little of what both have."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher

from rules.reading.blocks import plain_lines

#: Lines that both have, shown above and below each change.
AROUND = 2


@dataclass(frozen=True, slots=True)
class DiffLine:
    """`mark`: " " in both, "-" only before, "+" only now. `line` None: alike lines are left out here."""

    mark: str
    line: str | None


def differing(before: str, now: str) -> tuple[DiffLine, ...]:
    """What has changed, in the order of the text; nothing where nothing has."""
    old, new = plain_lines(before), plain_lines(now)
    groups = SequenceMatcher(None, old, new, autojunk=False).get_grouped_opcodes(AROUND)
    return tuple(line for at, group in enumerate(groups) for line in _group(at, group, old, new))


def _group(at: int, group: list[tuple[str, int, int, int, int]], old: list[str], new: list[str]) -> Iterator[DiffLine]:
    if at:
        yield DiffLine(" ", None)
    for tag, first, last, begin, end in group:
        if tag == "equal":
            yield from (DiffLine(" ", line) for line in new[begin:end])
        else:
            yield from (DiffLine("-", line) for line in old[first:last])
            yield from (DiffLine("+", line) for line in new[begin:end])
