"""A shell's kit, line by line: present, short or a substitute, and what that lets be done. Pure."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from app.domain.errors import Fault


class KitStands(Enum):
    """How a line of the kit stands once somebody has looked."""

    PRESENT = "present"
    SHORT = "short"
    SUBSTITUTE = "substitute"


@dataclass(frozen=True, slots=True)
class KitCheck:
    """`what`: of a substitute what it is, of what is short a word about it; `approved_by`: who lets it be built in."""

    line: str
    stands: KitStands
    what: str
    at: datetime
    by: str
    approved_by: str | None = None


def last_of(checks: Sequence[KitCheck]) -> Mapping[str, KitCheck]:
    """Line → what was last said of it."""
    return {one.line: one for one in checks}


def short_of(lines: Sequence[str], checks: Sequence[KitCheck]) -> tuple[str, ...]:
    said = last_of(checks)
    return tuple(line for line in lines if line in said and said[line].stands is KitStands.SHORT)


def unchecked_of(lines: Sequence[str], checks: Sequence[KitCheck]) -> tuple[str, ...]:
    """Blanks: a kit is complete only where there are none."""
    said = last_of(checks)
    return tuple(line for line in lines if line not in said)


def check_faults(check: KitCheck, lines: Collection[str], approvers: Collection[str]) -> Iterator[Fault]:
    """A substitute says what it is and who approved it, who is not whoever checked."""
    if check.line not in lines:
        yield Fault("line", "not-one-of", {"allowed": tuple(lines)})
    if check.stands is not KitStands.SUBSTITUTE:
        return
    if not check.what.strip():
        yield Fault("what", "required")
    if check.approved_by == check.by:
        yield Fault("approved_by", "kit-own-approval")
    elif check.approved_by not in approvers:
        yield Fault("approved_by", "required")
