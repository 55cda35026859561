"""What a proof of a book finds. Data only: which finding is a fault, and in what words, is said elsewhere.

A `witness` is a whole shell, option → choice: the first in written order that shows the finding.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from rules.answer import Cause
from rules.specification import Donor

Witness = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Counted:
    """Complete specifications with this choice: all that can be built, and those with neither part nor approval."""

    option: str
    choice: str
    count: int
    outright: int


@dataclass(frozen=True, slots=True)
class Dead:
    """A choice that nothing can complete, and every minimal set of rules that forbids it. Not `declared`: a fault."""

    option: str
    choice: str
    declared: bool
    causes: tuple[Cause, ...]


@dataclass(frozen=True, slots=True)
class NotLost:
    """A choice that is declared lost and can be built all the same, as the witness shows."""

    option: str
    choice: str
    witness: Witness


@dataclass(frozen=True, slots=True)
class Idle:
    """A rule (or lost tool) that forbids nothing which others don't forbid: without it the same can be built.

    `implied_by`: every minimal set of others that forbids all it forbids. None of them and no `witness`: it forbids
    nothing at all. `witness`: a shell that it and others forbid.
    """

    rule: str
    implied_by: tuple[Cause, ...]
    witness: Witness | None


@dataclass(frozen=True, slots=True)
class Silent:
    """A condition that holds for nothing that can be built, whatever the donor car.

    `kind`: part, approval, caution, hold, tool, line, adjustment, addition or standing-caution. `id`: of that thing;
    `line`: on an adjustment, the line for which it never holds. `witness`: a shell for which it holds that can't be
    built; None where it holds for none at all.
    """

    kind: str
    id: str
    line: str | None = None
    witness: Witness | None = None


@dataclass(frozen=True, slots=True)
class Unpriced:
    """A line that price lists (`lists`) have no amount for, with a shell that they therefore can't price.

    `everywhere`: it is on no list.
    """

    line: str
    option: str | None
    choice: str | None
    lists: tuple[str, ...]
    everywhere: bool
    witness: Witness | None


@dataclass(frozen=True, slots=True)
class Toolless:
    """A structural choice that names no tool. `witness`: a shell that has it; None where none can be built."""

    option: str
    choice: str
    witness: Witness | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Price:
    """Net before tax, one shell, whole minor units of the list; None: not priced."""

    list: str
    amount: int | None


@dataclass(frozen=True, slots=True)
class StandardShell:
    """The usual specification of a car. `keys`: its series, market and body; `donor`: what more tells it apart.

    `causes`: the rules that forbid it, each alone; none: it can be built. `gates`: parts and approvals it needs.
    `prices`: in the order of the book's lists; empty where it can't be built.
    """

    keys: Mapping[str, str]
    donor: Donor
    specification: Mapping[str, str]
    causes: tuple[str, ...]
    gates: tuple[str, ...]
    prices: tuple[Price, ...]


@dataclass(frozen=True, slots=True)
class Proof:
    """All findings, each list in the book's order.

    `count`, `outright`: complete specifications, as the full answer counts them; `variants`: of structural choices
    alone, None where that was too large to count. `contradiction`: where nothing can be built, every minimal set of
    rules that forbids it all. `capped`: there are more causes than were listed. `standard`: usual specifications that
    can be built, `broken`: those that can't. `idle_tools`: tools on which nothing depends.
    """

    count: int
    outright: int
    variants: int | None
    counts: tuple[Counted, ...]
    contradiction: tuple[Cause, ...]
    capped: bool
    dead: tuple[Dead, ...]
    not_lost: tuple[NotLost, ...]
    idle: tuple[Idle, ...]
    silent: tuple[Silent, ...]
    unpriced: tuple[Unpriced, ...]
    idle_tools: tuple[str, ...]
    toolless: tuple[Toolless, ...]
    standard: tuple[StandardShell, ...]
    broken: tuple[StandardShell, ...]

    @property
    def sound(self) -> bool:
        """Something can be built, and no choice is dead but those declared lost."""
        return not self.contradiction and all(dead.declared for dead in self.dead)
