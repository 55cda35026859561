"""What every construct's reader needs at hand: the names, the languages, the price lists and the ledger."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from rules.condition import ALWAYS, Condition
from rules.model import Words
from rules.reading.blocks import Block, Field
from rules.reading.conditions import condition_in, condition_of
from rules.reading.fields import Fields, nameless
from rules.reading.mistakes import Ledger
from rules.reading.names import Names


@dataclass(slots=True)
class Desk:
    """`exponents`: price list → decimals of its currency; a list whose currency is unknown counts as having two.

    `priced`: option → its choices that have a price line, for the options that could be read. `phrases`: (option,
    choice) → how it is said within a sentence: clause, shell.
    """

    ledger: Ledger
    names: Names
    languages: tuple[str, ...] = ()
    exponents: dict[str, int] = field(default_factory=dict)
    priced: dict[str, tuple[str, ...]] = field(default_factory=dict)
    phrases: dict[tuple[str, str], tuple[Words, Words]] = field(default_factory=dict)

    def fields(self, block: Block, plain: Iterable[str], worded: Iterable[str] = ()) -> Fields:
        """The block's fields, those it may not have reported."""
        return Fields(block, self.ledger, self.languages, plain, worded)

    def only_table(self, block: Block) -> None:
        """A mistake for a name and for every field of a block that is a table and nothing else."""
        nameless(block, self.ledger)
        self.fields(block, ())

    def condition(self, fields: Fields, name: str, example: str) -> Condition | None:
        """The condition in a field that must be there; None after a mistake."""
        return self._condition(fields.need(name, example))

    def condition_if_said(self, fields: Fields, name: str) -> Condition | None:
        """The same of a field that may be left out."""
        return self._condition(fields.get(name))

    def condition_or_always(self, fields: Fields, name: str) -> Condition | None:
        """The same of one that means always where it is left out."""
        return self.condition_if_said(fields, name) if fields.has(name) else ALWAYS

    def condition_in(self, text: str, line: int) -> Condition | None:
        """The condition in one cell of a table; None after a mistake."""
        return condition_in(text, line, self.names, self.ledger)

    def known(self, fields: Fields, name: str, kind: str, example: str) -> str | None:
        """The declared id of a kind in a field that must be there; None after a mistake."""
        return self._id(fields.need(name, example), kind)

    def known_if_said(self, fields: Fields, name: str, kind: str) -> str | None:
        """The same of a field that may be left out."""
        return self._id(fields.get(name), kind)

    def _condition(self, found: Field | None) -> Condition | None:
        return None if found is None else condition_of(found, self.names, self.ledger)

    def _id(self, found: Field | None, kind: str) -> str | None:
        return found.value if found and self.names.check(kind, found.value, found.line, self.ledger) else None
