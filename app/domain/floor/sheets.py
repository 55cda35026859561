"""Revisions of a shell's build sheet: the first comes with its release, each change of what is built makes another.

A sheet on the wall is old as soon as another revision is there; what changed since is told to whoever scans it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class SheetRevision:
    """`changed`: options that are otherwise than on the one before; `note`: the number of the change note, or ""."""

    revision: int
    day: date
    changed: tuple[str, ...] = ()
    note: str = ""
    why: str = ""


def changed_since(revision: int, sheets: Sequence[SheetRevision]) -> tuple[str, ...]:
    """Options that changed after that revision, each once, in the order in which they did."""
    return tuple(dict.fromkeys(option for one in sheets if one.revision > revision for option in one.changed))
