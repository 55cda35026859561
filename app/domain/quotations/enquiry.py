"""What somebody asked for: the customer, his donor car in three pictures, and what he wants by when."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import Enum

from app.domain.customers.customer import Customer
from rules.specification import Donor


class Source(Enum):
    """Who says so."""

    PLATE = "plate-photograph"
    FACTORY = "factory-record"
    OWNER = "owner"


class Intent(Enum):
    """What the customer wants of the shell, against the car it is for."""

    AS_ORIGINAL = "as-original"
    ANOTHER_SERIES = "another-series"
    MODIFIED = "modified"


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture of the donor car: option id → choice id, who says so, and his words. Never merged with another.

    `photograph`: id of the one that he who says so points to.
    """

    values: Mapping[str, str] = field(default_factory=dict)
    said_by: Source | None = None
    note: str = ""
    photograph: int | None = None


@dataclass(frozen=True, slots=True)
class DonorCar:
    """`number_text` is kept as it was typed. `series` and `number` count only once `established`.

    `built`, `stands`, `ordered`: as it left the works, as it stands now, as it is wanted: three records. `intent` None:
    nobody has asked yet.
    """

    number_text: str = ""
    series: str | None = None
    number: int | None = None
    established: bool = False
    gearbox: str | None = None
    built: Picture = Picture()
    stands: Picture = Picture()
    ordered: Picture = Picture()
    id: int | None = None
    intent: Intent | None = None

    def facts(self) -> Donor:
        """What the engine may rely on: nothing of the number while it is not established."""
        if not self.established:
            return Donor(gearbox=self.gearbox)
        return Donor(self.series, self.number, self.gearbox)


@dataclass(frozen=True, slots=True)
class Wish:
    """An enquiry as it is typed in."""

    customer: Customer
    donor: DonorCar = DonorCar()
    wanted_by: date | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Enquiry:
    """`reference` as in E-2026-00007; `quotations`: their numbers; `version` counts the edits."""

    id: int
    reference: str
    customer: Customer
    donor: DonorCar
    dealer: str | None
    wanted_by: date | None
    note: str
    quotations: tuple[str, ...]
    created_at: datetime
    created_by: str
    updated_at: datetime
    version: int
