"""Sets of choices as one whole number: a field of bits for each option. Knows options and choices, no rule.

Every field has the same width and a guard bit on top that is never part of a set; so "which options have exactly one
choice left" is arithmetic on the whole number at once, without a loop over the options.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping


class Layout:
    """The place of every choice in a number. `options`: in the book's order; `domains`: option → its choices."""

    __slots__ = ("_bits", "_each", "_fields", "_full", "_guard", "_low", "_offsets", "_width", "domains", "options")

    def __init__(self, domains: Mapping[str, tuple[str, ...]]) -> None:
        self.domains = domains
        self.options = tuple(domains)
        self._width = 1 + max((len(choices) for choices in domains.values()), default=1)
        self._offsets = {option: i * self._width for i, option in enumerate(self.options)}
        self._bits = {
            (o, c): 1 << self._offsets[o] + k for o, choices in domains.items() for k, c in enumerate(choices)
        }
        self._each = {o: tuple(self._bits[o, c] for c in choices) for o, choices in domains.items()}
        self._fields = {o: (1 << self._width - 1) - 1 << offset for o, offset in self._offsets.items()}
        self._low = sum(1 << offset for offset in self._offsets.values())
        self._guard = self._low << self._width - 1
        self._full = self._guard - self._low

    def bit(self, option: str, choice: str) -> int:
        """The set of this one choice; KeyError where the book has none such."""
        return self._bits[option, choice]

    def bits(self, option: str) -> tuple[int, ...]:
        """The sets of one choice of this option, in written order."""
        return self._each[option]

    def field(self, option: str) -> int:
        """Every bit that a choice of this option may have."""
        return self._fields[option]

    def fields(self, options: Iterable[str]) -> int:
        """The fields of several options."""
        return sum(self.field(option) for option in frozenset(options))

    def mask(self, made: Mapping[str, str]) -> int:
        """The set of the choices made, option → choice."""
        return sum(self._bits[answer] for answer in made.items())

    def settled(self, possible: int) -> int:
        """Of a set with at least one choice of every option: the choices that stand alone in their field."""
        crowd = possible & (possible - self._low)
        guards = (crowd + self._full) & self._guard
        return possible & ~(guards - (guards >> self._width - 1))

    def indexes(self, made: Mapping[str, str]) -> dict[str, int]:
        """option → the place of its choice, for the choices made."""
        return {option: self.domains[option].index(choice) for option, choice in made.items()}

    def choice(self, alone: int, option: str) -> int | None:
        """The index of the option's choice in a set of choices that stand alone; None where it has none."""
        field = (alone & self._fields[option]) >> self._offsets[option]
        return field.bit_length() - 1 if field else None

    def made(self, alone: int) -> dict[str, str]:
        """option → choice of a set of choices that stand alone, in the book's order."""
        found = ((option, self.choice(alone, option)) for option in self.options)
        return {option: self.domains[option][k] for option, k in found if k is not None}


def bits_of(choices: int) -> Iterator[int]:
    """The sets of one choice of a set."""
    while choices:
        bit = choices & -choices
        yield bit
        choices ^= bit
