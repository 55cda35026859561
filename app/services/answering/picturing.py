"""A donor car in three pictures against what is asked for: the rows in which they differ. Saves nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime

from app.domain.asking.actor import Actor
from app.domain.errors import Fault
from app.domain.quotations.enquiry import DonorCar, Picture
from app.domain.quotations.pictures import Row, differences
from app.services.answering import checking
from app.services.answering.specifying import Asked, deal_of, said_of
from app.store.db import Store
from rules.model import Book

#: As it left the works, as it stands now.
Pictures = tuple[Picture, Picture]


def picture(store: Store, actor: Actor, asked: Asked, pictures: Pictures, now: datetime) -> tuple[Row, ...]:
    """Built, stands and what is settled of the specification, where two differ. Raises as `specifying.answer`."""
    deal, tools = deal_of(store, actor, asked, now, lambda book: _faults(book, pictures))
    _, said = said_of(store, deal, tools, asked.specification)
    return differences(deal.book, car_of(asked, pictures), said.settled)


def car_of(asked: Asked, pictures: Pictures) -> DonorCar:
    """The car; its number counts where the question relies on a series."""
    known = asked.donor
    car = DonorCar("", known.series, known.number, known.series is not None, known.gearbox)
    return replace(car, built=pictures[0], stands=pictures[1])


def _faults(book: Book, pictures: Pictures) -> Iterator[Fault]:
    for name, said in zip(("built", "stands"), pictures, strict=True):
        yield from checking.choice_faults(book, said.values, name)
