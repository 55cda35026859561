"""What is looked at to answer: how all completions of the choices made stand, and each choice's. No wording, no states.

Two kinds of prepared books give it: with a diagram (`prepare`) and without one (`without_diagram`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from rules.engine.causes import Causes
from rules.engine.depends import Voices
from rules.engine.groups import Group
from rules.engine.layout import Layout
from rules.engine.original import Original
from rules.engine.sweep import Price
from rules.model import Book
from rules.money.price import Tariff

#: As `rules.engine.sweep.PricedBranch`; the price is None where it isn't worked out.
Branch = tuple[bool, Price | None, int]


@dataclass(frozen=True, slots=True)
class View:
    """All completions of the choices made: whether there is one, how many, at what least price, all they take.

    `count`, `price` None: not worked out. `branches`: for each option one for each of its choices, in written order.
    """

    ways: bool
    count: int | None
    price: Price | None
    choices: int
    branches: Mapping[str, Sequence[Branch]]


class Ready(Protocol):
    """A book, the state of its tools and what is known of a donor car, prepared so that asking is cheap."""

    @property
    def book(self) -> Book: ...
    @property
    def order(self) -> tuple[str, ...]: ...
    @property
    def layout(self) -> Layout: ...
    @property
    def voices(self) -> Voices: ...
    @property
    def groups(self) -> tuple[Group, ...]: ...
    @property
    def causes(self) -> Causes: ...
    @property
    def original(self) -> Original: ...

    def views(self, made: Mapping[str, str], tariff: Tariff) -> tuple[View, View]:
        """Of all that can be built, and of what of it needs neither part nor approval."""
        ...

    def alone(self, made: Mapping[str, str]) -> int:
        """The choices that stand alone once these are made, as a set; 0 where nothing can be built."""
        ...
