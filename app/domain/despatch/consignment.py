"""All that the papers of one shell say, as it was frozen when the shell left; before that, as it stands. Pure.

The conformity declaration is a supplier's own after ISO/IEC 17050-1: of a component, never of a vehicle.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from app.domain.despatch.despatch import Packing, Trade
from app.domain.money.invoice import Party

Words = Mapping[str, str]


class Paper(StrEnum):
    """The papers that go with a shell; each has its words and its layout. EXPORT_DATA goes abroad alone."""

    PACKING_LIST = "packing-list"
    DESPATCH_ADVICE = "despatch-advice"
    EXPORT_DATA = "export-data"
    EVIDENCE_LETTER = "evidence-letter"
    DECLARATION = "declaration"


@dataclass(frozen=True, slots=True)
class Chosen:
    """One option as it was ordered; `standing` as papers mark it: usual, chosen, forced."""

    option: Words
    choice: Words
    standing: str


@dataclass(frozen=True, slots=True)
class Conceded:
    """What was passed though it is not as it should be, in the book's words, and the day on which that was granted."""

    subject: Words
    day: date


@dataclass(frozen=True, slots=True)
class Consignment:
    """`number`: of the despatch, empty before it; `dated`: the day on which it left, or on which the paper was made.

    `specification`: all options, `finish` those of how it is painted; `old_parts`: parts from a donor car that are
    built in; `donor`: the car's number as it was stated. `value`: of the shell before tax, whole minor units.
    `cautions`: paper of the book → its standing cautions; `said`: id → a text that the firm words itself.
    `conceded`: what was passed; `concessions`: the same in ids,
    of what left while papers told it so.
    `acknowledged`: who takes it after `overcoat_by` all the same.
    `record`, `record_hash`: code and SHA-256 of the as-built record; empty before it is kept.
    """

    number: str
    order: str
    quotation: str
    letter: str
    dated: date
    serial: str
    seller: Party
    buyer: Party
    name: Words
    specification: tuple[Chosen, ...]
    finish: tuple[Chosen, ...]
    packing: Packing
    trade: Trade
    goes_to: str
    abroad: bool
    untaxed: bool
    invoice: str
    currency: str
    value: int
    author: str
    signed: str
    language: str
    size: str
    locale: str
    imperial: bool = False
    donor: str = ""
    old_parts: tuple[Words, ...] = ()
    cautions: Mapping[str, tuple[Words, ...]] = field(default_factory=dict)
    said: Mapping[str, Words] = field(default_factory=dict)
    concessions: tuple[str, ...] = ()
    conceded: tuple[Conceded, ...] = ()
    overcoat_by: date | None = None
    acknowledged: str = ""
    record: str = ""
    record_hash: str = ""

    @property
    def draft(self) -> bool:
        return not self.number

    def papers(self) -> tuple[Paper, ...]:
        """Those that this shell has."""
        return tuple(paper for paper in Paper if self.abroad or paper is not Paper.EXPORT_DATA)
