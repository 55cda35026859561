"""Enquiries with their customer and donor car. `dealer` narrows a question to one dealer's own; None: everybody's."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from sqlite3 import Row
from typing import Any

from sqlite_utils import Database

from app.domain.customers.customer import Customer
from app.domain.paging import Page, page
from app.domain.quotations.enquiry import DonorCar, Enquiry, Intent, Picture, Source, Wish
from app.store import customers
from app.store.sought import Where, narrow
from app.store.texts import json_text, maybe_day, moment, moment_text

PICTURES = ("built", "stands", "ordered")

_FOUND = "enquiries_sought CROSS JOIN enquiries ON enquiries.turn = enquiries_sought.rowid"

_ROWS = "SELECT enquiries.* FROM"

_ENQUIRY = "SELECT * FROM enquiries WHERE (? IS NULL OR dealer = ?)"


def add(db: Database, reference: str, wish: Wish, dealer: str | None, by: str, now: datetime, *, car: str = "") -> int:
    """The id of the new enquiry. `car`: the donor's number written out, empty where it can't be read.

    A customer with an id is the one of that number, and what is said of him now is what is known of him.
    """
    customer = wish.customer.id or customers.add(db, wish.customer, dealer)
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
        "sought": "",
        **_typed(wish, car, now),
    }
    enquiry: Any = db.table("enquiries").insert(row).last_pk
    _know(db, int(enquiry), customer, wish.customer, dealer)
    return int(enquiry)


def change(db: Database, enquiry: Enquiry, wish: Wish, now: datetime, *, car: str = "") -> None:
    """Replaces what was typed; the version goes up by one. `car` as in `add`.

    A customer without an id, or with that of nobody known, is the one it had, if he is nobody else's; else a new one.
    """
    (donor,) = db.execute("SELECT donor FROM enquiries WHERE id = ?", [enquiry.id]).fetchone()
    customer = _customer_meant(db, enquiry, wish.customer)
    db.table("donors").update(donor, _donor_row(wish.donor))
    _put_pictures(db, donor, wish.donor)
    row = {**_typed(wish, car, now), "customer": customer, "version": enquiry.version + 1}
    db.table("enquiries").update(enquiry.id, row)
    _know(db, enquiry.id, customer, wish.customer, enquiry.dealer)
    if customer != enquiry.customer.id and enquiry.customer.id is not None:
        customers.let_go(db, enquiry.customer.id)


def get(db: Database, enquiry: int, dealer: str | None) -> Enquiry | None:
    row = db.execute(f"{_ENQUIRY} AND id = ?", [dealer, dealer, enquiry]).fetchone()
    return None if row is None else _enquiry(db, row)


def find(db: Database, words: Sequence[str], dealer: str | None, size: int, after: int | None) -> Page[Enquiry]:
    """Those in which every one of `words` (app.domain.finding) is found, the last changed first."""
    where, turn = Where(), "enquiries_sought.rowid" if words else "turn"
    if words:
        narrow(where, "enquiries_sought", words, dealer=dealer)
    if dealer is not None:
        where.add("enquiries.dealer = ?", dealer)
    if after is not None:
        where.add(f"{turn} < ?", after)
    walked = f"{_ROWS} {_FOUND if words else 'enquiries'}"
    sql = f"{walked} WHERE {where.sql()} ORDER BY {turn} DESC LIMIT ?"
    found = db.execute(sql, [*where.facts, size + 1]).fetchall()
    return page(found, size, lambda row: (row["turn"],)).of(lambda row: _enquiry(db, row))


def _customer_meant(db: Database, enquiry: Enquiry, customer: Customer) -> int:
    known = None if customer.id is None else customers.standing(db, customer.id, None)
    if known is not None and known.customer.dealer == enquiry.dealer:
        return known.id
    own = enquiry.customer.id
    if own is not None and (customers.enquiries_of(db, own) == (enquiry.id,) or _same(enquiry.customer, customer)):
        return own
    return customers.add(db, customer, enquiry.dealer)


def _same(one: Customer, other: Customer) -> bool:
    return replace(one, id=None, dealer=None) == replace(other, id=None, dealer=None)


def _know(db: Database, enquiry: int, number: int, customer: Customer, dealer: str | None) -> None:
    """Whatever was said of him counts for all his enquiries; each is found by it."""
    if not customers.change(db, number, customer, dealer, besides=enquiry):
        customers.seek_anew(db, number)


def _typed(wish: Wish, car: str, now: datetime) -> dict[str, Any]:
    return {
        "wanted_by": wish.wanted_by and wish.wanted_by.isoformat(),
        "note": wish.note,
        "updated_at": moment_text(now),
        "car": car,
    }


def _donor_row(donor: DonorCar) -> dict[str, Any]:
    columns = ("number_text", "series", "number", "gearbox")
    intent = donor.intent and donor.intent.value
    return {"established": int(donor.established), "intent": intent, **{name: getattr(donor, name) for name in columns}}


def _put_pictures(db: Database, donor: int, car: DonorCar) -> None:
    for name in PICTURES:
        picture: Picture = getattr(car, name)
        said_by = picture.said_by and picture.said_by.value
        row = [donor, name, json_text(dict(picture.values)), said_by, picture.note, picture.photograph]
        db.execute("INSERT OR REPLACE INTO donor_pictures VALUES (?, ?, ?, ?, ?, ?)", row)


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
    return customers.customer_of(db.execute("SELECT * FROM customers WHERE id = ?", [customer]).fetchone())


def _donor(db: Database, donor: int) -> DonorCar:
    row = dict(db.execute("SELECT * FROM donors WHERE id = ?", [donor]).fetchone())
    pictures = db.execute("SELECT * FROM donor_pictures WHERE donor = ?", [donor])
    intent = None if row["intent"] is None else Intent(row["intent"])
    read = {"established": bool(row["established"]), "intent": intent}
    return DonorCar(**{**row, **read, **{p["picture"]: _picture(p) for p in pictures}})


def _picture(row: Row) -> Picture:
    said_by = None if row["said_by"] is None else Source(row["said_by"])
    return Picture(json.loads(row["choices"]), said_by, row["note"], row["photograph"])
