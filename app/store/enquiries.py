"""Enquiries with their customer and donor car. `dealer` narrows a question to one dealer's own; None: everybody's."""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import datetime
from sqlite3 import Row
from typing import Any

from sqlite_utils import Database

from app.domain.customer import Customer
from app.domain.enquiry import DonorCar, Enquiry, Intent, Picture, Source, Wish
from app.domain.finding import sought_text
from app.store.texts import json_text, maybe_day, moment, moment_text

PICTURES = ("built", "stands", "ordered")

_ENQUIRY = "SELECT * FROM enquiries WHERE (? IS NULL OR dealer = ?)"


def add(db: Database, reference: str, wish: Wish, dealer: str | None, by: str, now: datetime, *, car: str = "") -> int:
    """The id of the new enquiry. `car`: the donor's number written out, empty where it can't be read."""
    customer: Any = db.table("customers").insert(_customer_row(wish.customer, dealer)).last_pk
    donor: Any = db.table("donors").insert(_donor_row(wish.donor)).last_pk
    _put_pictures(db, donor, wish.donor)
    row = {
        "reference": reference,
        "customer": customer,
        "donor": donor,
        "dealer": dealer,
        "created_at": moment_text(now),
        "created_by": by,
        "version": 1,
        **_typed(reference, wish, car, now),
    }
    enquiry: Any = db.table("enquiries").insert(row).last_pk
    return int(enquiry)


def change(db: Database, enquiry: Enquiry, wish: Wish, now: datetime, *, car: str = "") -> None:
    """Replaces what was typed; the version goes up by one. `car` as in `add`."""
    customer, donor = db.execute("SELECT customer, donor FROM enquiries WHERE id = ?", [enquiry.id]).fetchone()
    db.table("customers").update(customer, _customer_row(wish.customer, enquiry.dealer))
    db.table("donors").update(donor, _donor_row(wish.donor))
    _put_pictures(db, donor, wish.donor)
    typed = _typed(enquiry.reference, wish, car, now)
    db.table("enquiries").update(enquiry.id, {**typed, "version": enquiry.version + 1})


def get(db: Database, enquiry: int, dealer: str | None) -> Enquiry | None:
    row = db.execute(f"{_ENQUIRY} AND id = ?", [dealer, dealer, enquiry]).fetchone()
    return None if row is None else _enquiry(db, row)


def find(db: Database, words: Sequence[str], dealer: str | None, limit: int, offset: int) -> tuple[Enquiry, ...]:
    """Those in which every one of `words` (app.domain.finding) is found, the last changed first."""
    found = "".join(
        " AND (sought LIKE '%' || ? || '%' OR EXISTS (SELECT 1 FROM quotations WHERE enquiry = enquiries.id"
        " AND lower(replace(number, '-', '')) LIKE '%' || ? || '%'))"
        for _ in words
    )
    order = " ORDER BY updated_at DESC, id DESC LIMIT ? OFFSET ?"
    twice = [word for word in words for _ in range(2)]
    rows = db.execute(f"{_ENQUIRY}{found}{order}", [dealer, dealer, *twice, limit, offset]).fetchall()
    return tuple(_enquiry(db, row) for row in rows)


def _typed(reference: str, wish: Wish, car: str, now: datetime) -> dict[str, Any]:
    customer = wish.customer
    names = (reference, customer.name, customer.telephone, customer.email, wish.donor.number_text, car)
    return {
        "wanted_by": wish.wanted_by and wish.wanted_by.isoformat(),
        "note": wish.note,
        "updated_at": moment_text(now),
        "car": car,
        "sought": sought_text(dict.fromkeys(names)),
    }


def _customer_row(customer: Customer, dealer: str | None) -> dict[str, Any]:
    columns = ("name", "country", "language", "units", "telephone", "email", "address", "tax_number")
    return {"dealer": dealer, "trade": int(customer.trade), **{name: getattr(customer, name) for name in columns}}


def _donor_row(donor: DonorCar) -> dict[str, Any]:
    columns = ("number_text", "series", "number", "gearbox")
    intent = donor.intent and donor.intent.value
    return {"established": int(donor.established), "intent": intent, **{name: getattr(donor, name) for name in columns}}


def _put_pictures(db: Database, donor: int, car: DonorCar) -> None:
    for name in PICTURES:
        picture: Picture = getattr(car, name)
        said_by = picture.said_by and picture.said_by.value
        row = [donor, name, json_text(dict(picture.values)), said_by, picture.note]
        db.execute("INSERT OR REPLACE INTO donor_pictures VALUES (?, ?, ?, ?, ?)", row)


def _enquiry(db: Database, row: Row) -> Enquiry:
    numbers = db.execute("SELECT number FROM quotations WHERE enquiry = ? ORDER BY id", [row["id"]])
    return Enquiry(
        id=row["id"],
        reference=row["reference"],
        customer=_customer(db, row["customer"]),
        donor=_donor(db, row["donor"]),
        dealer=row["dealer"],
        wanted_by=maybe_day(row["wanted_by"]),
        note=row["note"],
        quotations=tuple(number for (number,) in numbers),
        created_at=moment(row["created_at"]),
        created_by=row["created_by"],
        updated_at=moment(row["updated_at"]),
        version=row["version"],
    )


def _customer(db: Database, customer: int) -> Customer:
    row = dict(db.execute("SELECT * FROM customers WHERE id = ?", [customer]).fetchone())
    return Customer(**{**row, "trade": bool(row["trade"])})


def _donor(db: Database, donor: int) -> DonorCar:
    row = dict(db.execute("SELECT * FROM donors WHERE id = ?", [donor]).fetchone())
    pictures = db.execute("SELECT * FROM donor_pictures WHERE donor = ?", [donor])
    intent = None if row["intent"] is None else Intent(row["intent"])
    read = {"established": bool(row["established"]), "intent": intent}
    return DonorCar(**{**row, **read, **{p["picture"]: _picture(p) for p in pictures}})


def _picture(row: Row) -> Picture:
    said_by = None if row["said_by"] is None else Source(row["said_by"])
    return Picture(json.loads(row["choices"]), said_by, row["note"])
