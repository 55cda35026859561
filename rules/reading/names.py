"""Every id of a book, gathered before anything is read that may name it, so that blocks may stand in any order.

Gathering is lenient: an id in a block with mistakes of its own still counts, so that one mistake makes no others.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from rules.donor.usual import KEY_ROLES
from rules.model import Role
from rules.reading.blocks import Block
from rules.reading.columns import COLUMNS
from rules.reading.fields import parts_of
from rules.reading.mistakes import Ledger, offer, sentence, shown

#: Words of the conditions' language, which no option or choice may be called.
RESERVED = ("always", "and", "donor", "from", "is", "not", "or", "the", "to", "usual")

#: What may be declared by a block of its own (`kind id`) and named elsewhere.
DECLARED = (
    *("option", "line", "adjust", "rule", "tool", "series", "stage", "addition", "extra", "caution", "measure"),
    "wording",
    "known",
    *("keep", "cut", "change", "gap"),
)

#: What is declared by a column of the table in a block of its own.
TABLED = {**{kind: first for kind, (first, *_) in COLUMNS.items()}, "kit": "kit-line"}

NUMBERS = re.compile(r"([A-Z0-9]{1,8})-(\d{1,9}) to \1-(\d{1,9})", re.ASCII)


@dataclass(slots=True)
class Names:
    """`ids`: kind → id → line. `choices`: option → its choices. `roles`: role → option.

    `numbers`, `prefixes`: series → first and last of its identity numbers; what they begin with, and how many digits.
    """

    ids: dict[str, dict[str, int]] = field(default_factory=dict)
    choices: dict[str, tuple[str, ...]] = field(default_factory=dict)
    gearboxes: tuple[str, ...] = ()
    roles: dict[Role, str] = field(default_factory=dict)
    numbers: dict[str, tuple[int, int]] = field(default_factory=dict)
    prefixes: dict[str, tuple[str, int]] = field(default_factory=dict)

    @property
    def series_option(self) -> str | None:
        """The option that plays the series; None where the book names none."""
        return self.roles.get(Role.SERIES)

    @property
    def key_options(self) -> tuple[str, ...]:
        """The options that key the table of what was usual, those the book names."""
        return tuple(self.roles[role] for role in KEY_ROLES if role in self.roles)

    def known(self, kind: str) -> Iterable[str]:
        """The ids of a kind, in written order."""
        return self.ids.get(kind, {})

    def check(self, kind: str, word: str, line: int, ledger: Ledger, called: str = "") -> bool:
        """Whether an id of the kind is declared; a mistake where it is not."""
        if word in self.ids.get(kind, {}):
            return True
        ledger.unknown(line, called or kind, word, self.known(kind))
        return False

    def check_option(self, option: str, line: int, ledger: Ledger) -> bool:
        """Whether there is such an option."""
        return self.check("option", option, line, ledger)

    def check_choice(self, option: str, choice: str, line: int, ledger: Ledger) -> bool:
        """Whether the option, itself known, has such a choice; an option without a table is not asked."""
        choices = self.choices.get(option, ())
        if not choices or choice in choices:
            return True
        ledger.add(
            line,
            sentence("“{option}” has no choice “{choice}”", option=option, choice=shown(choice)),
            offer(choice, choices),
        )
        return False

    def check_series(self, series: str, line: int, ledger: Ledger) -> bool:
        """Whether there is such a series."""
        return self.check("series", series, line, ledger)

    def check_gearbox(self, gearbox: str, line: int, ledger: Ledger) -> bool:
        """Whether there is such a gearbox."""
        if gearbox in self.gearboxes:
            return True
        ledger.unknown(line, "gearbox", gearbox, self.gearboxes)
        return False

    def check_numbers(self, series: str, low: int | None, high: int | None, line: int, ledger: Ledger) -> bool:
        """Whether a range of identity numbers lies within those of its series."""
        first, last = self.numbers.get(series, (0, 10**9))
        if first <= (first if low is None else low) <= (last if high is None else high) <= last:
            return True
        ledger.add(
            line,
            sentence("these are no identity numbers of {series}", series=series),
            sentence("write numbers from {first} to {last}, the lower first", first=first, last=last),
        )
        return False


def declaring(kind: str, head: Sequence[str]) -> int:
    """The place of the column in which a table has the ids of its rows: the first, where none is called so."""
    column = COLUMNS.get(kind, ("choice",))[0]
    return head.index(column) if column in head else 0


def names_of(blocks: list[Block], ledger: Ledger) -> Names:
    """The ids that the blocks declare; one declared twice is a mistake."""
    names = Names()
    for block in blocks:
        if block.kind in DECLARED and block.words:
            _declare(names, block.kind, "-".join(block.words), block.line, ledger)
        if block.kind in TABLED:
            for id_, line in _rows(block):
                _declare(names, TABLED[block.kind], id_, line, ledger)
        _gather(block, names)
    return names


def _declare(names: Names, kind: str, word: str, line: int, ledger: Ledger) -> None:
    first = names.ids.setdefault(kind, {}).setdefault(word, line)
    if first != line:
        ledger.add(
            line,
            sentence(
                "{kind} “{word}” stands here a second time, first on line {first}",
                kind=kind,
                word=shown(word),
                first=first,
            ),
            sentence("give it another id, or take one out"),
        )
    if kind == "option" and word in RESERVED:
        ledger.add(
            line,
            sentence("“{word}” is a word of the conditions, so no {kind} can be called so", word=word, kind=kind),
            sentence("choose another id"),
        )


def _gather(block: Block, names: Names) -> None:
    match block.kind:
        case "option":
            names.choices.setdefault("-".join(block.words), tuple(dict.fromkeys(id_ for id_, _ in _rows(block))))
        case "book":
            names.gearboxes = tuple(parts_of(_said(block).get("gearboxes", "")))
        case "roles":
            said = _said(block)
            names.roles.update({role: said[role.value] for role in Role if said.get(role.value)})
        case "series":
            if found := NUMBERS.fullmatch(_said(block).get("numbers", "")):
                names.numbers["-".join(block.words)] = (int(found[2]), int(found[3]))
                names.prefixes["-".join(block.words)] = (found[1], len(found[2]))


def _said(block: Block) -> dict[str, str]:
    return {field.name: field.value for field in block.fields}


def _rows(block: Block) -> Iterator[tuple[str, int]]:
    """The ids in a block's table, each with its line."""
    at = declaring(block.kind, block.rows[0].cells) if block.rows else 0
    return ((row.cells[at], row.line) for row in block.rows[1:] if len(row.cells) > at)
