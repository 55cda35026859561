"""Customers: kept, known again, merged. `dealer` narrows a question to one dealer's own; None: everybody's.

Who was merged into another keeps his row, so that it can be told; his enquiries are the other's. Erasing is elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from sqlite3 import Row
from typing import Any

from sqlite_utils import Database

from app.domain.customers.customer import Customer
from app.domain.customers.likeness import keys_of, near_to
from app.domain.finding import sought_text
from app.domain.paging import Page, page
from app.store.sought import Where, narrow
from app.store.texts import maybe_moment, moment_text

COLUMNS = ("name", "country", "language", "units", "telephone", "email", "address", "tax_number")

_SELECTED = """
SELECT customers.*, erasures.at AS erased_at, erasures.by AS erased_by, erasures.why AS erased_why
FROM {source} LEFT JOIN erasures ON erasures.id = (SELECT max(id) FROM erasures WHERE customer = customers.id)
"""

_KEPT = f"{_SELECTED.format(source='customers')} WHERE (? IS NULL OR customers.dealer = ?)"

_LISTED = """
 AND merged_into IS NULL AND EXISTS (SELECT 1 FROM enquiries WHERE enquiries.customer = customers.id)
"""

#: A name that he had before he was merged finds him, too.
_FOUND = "customers_sought CROSS JOIN customers ON customers.id = customers_sought.rowid"

_ALIKE = f"""
{_KEPT} AND customers.dealer IS ? AND customers.id IS NOT ? AND erased_at IS NULL {_LISTED}
 AND customers.id IN (SELECT coalesce(merged_into, id) FROM customers AS filed WHERE filed.id IN (%s))
ORDER BY customers.id DESC
"""  # noqa: S608 - texts of this file

_FILED = "SELECT customer FROM customer_keys WHERE kind = ? AND key = ? ORDER BY customer DESC LIMIT ?"

#: Who is filed under several names of another, and who under one: with his whole name.
_SEVERAL = """
SELECT customer FROM customer_keys WHERE kind = 'name' AND key IN (%s) GROUP BY customer HAVING count(*) > 1
"""
_ONE = "SELECT customer FROM customer_keys WHERE kind = 'name' AND key = ?"
_WHOLE = "CROSS JOIN customer_keys AS whole ON whole.customer = filed.id AND whole.kind = 'whole'"
_NAMED = f"""
SELECT filed.id, whole.key FROM ({{}}) AS own CROSS JOIN customers AS filed ON filed.id = own.customer {_WHOLE}
WHERE filed.dealer IS ? ORDER BY own.customer DESC LIMIT ?
"""  # noqa: S608 - texts of this file

#: What an enquiry is found by, beside the numbers of its quotations and orders.
_SOUGHT = """
SELECT enquiries.id, reference, car, number_text FROM enquiries JOIN donors ON donors.id = donor WHERE customer = ?
"""


_UNKNOWN = """
SELECT 1 FROM customers WHERE id = ? AND merged_into IS NULL AND id NOT IN (SELECT customer FROM erasures)
  AND NOT EXISTS (SELECT 1 FROM enquiries WHERE customer = customers.id)
  AND NOT EXISTS (SELECT 1 FROM customers AS former WHERE former.merged_into = customers.id)
  AND NOT EXISTS (SELECT 1 FROM customers_apart WHERE customers.id IN (one, other))
"""

_PEOPLE = "SELECT name, telephone, email FROM customers WHERE id = ? OR merged_into = ? ORDER BY id"


@dataclass(frozen=True, slots=True)
class Erased:
    """When his data were erased, by whom, and why."""

    at: datetime
    by: str
    why: str


@dataclass(frozen=True, slots=True)
class Kept:
    """`customer.id` is his number. `merged_into`: whose he is by now, None: his own. `version` counts the edits."""

    customer: Customer
    version: int
    merged_into: int | None
    erased: Erased | None

    @property
    def id(self) -> int:
        assert self.customer.id is not None
        return self.customer.id


def add(db: Database, customer: Customer, dealer: str | None) -> int:
    """His number."""
    made: Any = db.table("customers").insert(_row(customer, dealer)).last_pk
    _file(db, int(made), customer)
    return int(made)


def get(db: Database, number: int, dealer: str | None) -> Kept | None:
    row = db.execute(f"{_KEPT} AND customers.id = ?", [dealer, dealer, number]).fetchone()
    return None if row is None else _kept(row)


def standing(db: Database, number: int, dealer: str | None) -> Kept | None:
    """Him, or whom he was merged into."""
    found = get(db, number, dealer)
    return found if found is None or found.merged_into is None else get(db, found.merged_into, dealer)


def former(db: Database, number: int) -> tuple[Kept, ...]:
    """Those who were merged into him, as they were then."""
    return formers(db, [number])[number]


def formers(db: Database, numbers: Iterable[int]) -> dict[int, tuple[Kept, ...]]:
    """Of each customer those who were merged into him, as they were then."""
    told: dict[int, tuple[Kept, ...]] = dict.fromkeys(numbers, ())
    sql = f"{_KEPT} AND merged_into IN ({', '.join('?' * len(told))}) ORDER BY customers.id"
    for row in db.execute(sql, [None, None, *told]).fetchall():
        told[row["merged_into"]] += (_kept(row),)
    return told


def find(db: Database, words: Sequence[str], dealer: str | None, size: int, after: int | None) -> Page[Kept]:
    """In whom every one of `words` is found, the last come first."""
    where, place = Where(), "customers_sought.rowid" if words else "customers.id"
    if words:
        narrow(where, "customers_sought", words, dealer=dealer)
    if dealer is not None:
        where.add("customers.dealer = ?", dealer)
    if after is not None:
        where.add(f"{place} < ?", after)
    selected = _SELECTED.format(source=_FOUND if words else "customers")
    sql = f"{selected} WHERE {where.sql()}{_LISTED} ORDER BY {place} DESC LIMIT ?"
    found = db.execute(sql, [*where.facts, size + 1]).fetchall()
    return page(found, size, lambda row: (row["id"],)).of(_kept)


def alike(db: Database, customer: Customer, dealer: str | None, limit: int) -> tuple[Kept, ...]:
    """Who of the same dealer may be he, or may have been before he was merged; nobody whose data were erased.

    Of those filed under his telephone, e-mail or whole name up to `limit` each; and as many of those who share several
    names with him, or one, where the whole is near his.
    """
    found = [number for group in _filed_like(db, customer, dealer, limit) for number in group]
    return _held(db, customer, dealer, found)


def alike_by_turns(db: Database, customer: Customer, dealer: str | None, limit: int) -> Iterator[tuple[Kept, ...]]:
    """The same in groups, the likeliest first: whoever asks only for one reads no further than that."""
    for found in _filed_like(db, customer, dealer, limit):
        yield _held(db, customer, dealer, found)


def _filed_like(db: Database, customer: Customer, dealer: str | None, limit: int) -> Iterator[list[int]]:
    keys = keys_of(customer.name, customer.country, customer.telephone, customer.email)
    yield [*_filed(db, [key for key in keys if key[0] != "name"], limit)]
    near = near_to(next((key for kind, key in keys if kind == "whole"), ""))
    names = [key for kind, key in keys if kind == "name"]
    yield [number for number, name in _named(db, names, dealer, limit) if near(name)]


def _held(db: Database, customer: Customer, dealer: str | None, found: Sequence[int]) -> tuple[Kept, ...]:
    sql = _ALIKE % ", ".join("?" * len(found))
    return tuple(map(_kept, db.execute(sql, [None, None, dealer, customer.id, *found]).fetchall()))


def _filed(db: Database, keys: Sequence[tuple[str, str]], limit: int) -> Iterator[int]:
    for key in keys:
        yield from (number for (number,) in db.execute(_FILED, [*key, limit]))


def _named(db: Database, names: Sequence[str], dealer: str | None, limit: int) -> Iterator[tuple[int, str]]:
    """Number and whole name; each list is walked from the last filed on."""
    if len(names) > 1:
        several = _SEVERAL % ", ".join("?" * len(names))
        yield from db.execute(_NAMED.format(several), [*names, dealer, limit])
    for name in names:
        yield from db.execute(_NAMED.format(_ONE), [name, dealer, limit // len(names)])


def change(db: Database, number: int, customer: Customer, dealer: str | None, *, besides: int | None = None) -> bool:
    """Writes what is known of him now; False where nothing of it is new.

    His enquiries are then found by it, and all but `besides` count as edited, so that nobody writes over it unseen.
    """
    row = db.execute("SELECT * FROM customers WHERE id = ?", [number]).fetchone()
    new = _row(customer, dealer)
    if all(row[name] == value for name, value in new.items()):
        return False
    db.table("customers").update(number, {**new, "version": row["version"] + 1})
    _file(db, number, customer)
    db.execute("UPDATE enquiries SET version = version + 1 WHERE customer = ? AND id IS NOT ?", [number, besides])
    seek_anew(db, number)
    return True


def merge(db: Database, kept: int, gone: int, customer: Customer, left: Customer, dealer: str | None) -> None:
    """What was `gone`'s is `kept`'s, who is `customer` from now on; `left`: what of both he is no longer called."""
    change(db, gone, left, dealer)
    db.execute("UPDATE customers SET merged_into = ? WHERE id = ? OR merged_into = ?", [kept, gone, gone])
    db.execute("UPDATE enquiries SET customer = ? WHERE customer = ?", [kept, gone])
    if not change(db, kept, customer, dealer):
        db.execute("UPDATE customers SET version = version + 1 WHERE id = ?", [kept])
        db.execute("UPDATE enquiries SET version = version + 1 WHERE customer = ?", [kept])
    seek_anew(db, kept)


def enquiries_of(db: Database, number: int) -> tuple[int, ...]:
    """Their keys, the last taken down first."""
    rows = db.execute("SELECT id FROM enquiries WHERE customer = ? ORDER BY id DESC", [number])
    return tuple(key for (key,) in rows)


def let_go(db: Database, number: int) -> None:
    """Takes him out if no enquiry is his and nobody was merged into him: nobody ever knew him."""
    if db.execute(_UNKNOWN, [number]).fetchone():
        db.execute("DELETE FROM customer_keys WHERE customer = ?", [number])
        db.execute("DELETE FROM customers WHERE id = ?", [number])


def keep_apart(db: Database, one: int, other: int, by: str, now: datetime) -> None:
    """They are two people; said once."""
    row = [min(one, other), max(one, other), moment_text(now), by]
    db.execute("INSERT OR IGNORE INTO customers_apart VALUES (?, ?, ?, ?)", row)


def apart_from(db: Database, number: int) -> frozenset[int]:
    """Of whom it was said that he is another."""
    rows = db.execute("SELECT one, other FROM customers_apart WHERE ? IN (one, other)", [number])
    return frozenset(one if other == number else other for one, other in rows)


def seek_anew(db: Database, number: int) -> None:
    """His enquiries are found by his names, telephones and e-mails, those of before he was merged among them."""
    his = [text for person in db.execute(_PEOPLE, [number, number]).fetchall() for text in person]
    for key, *own in db.execute(_SOUGHT, [number]).fetchall():
        sought = sought_text(dict.fromkeys((*own, *his)))
        db.execute("UPDATE enquiries SET sought = ? WHERE id = ?", [sought, key])


def facts_of(db: Database, numbers: Iterable[int]) -> dict[int, dict[str, list[str]]]:
    """Of each customer the facts he is found by: sort → texts as typed."""
    wanted = [*numbers]
    marks = ", ".join("?" * len(wanted))
    sql = f"SELECT * FROM customers WHERE id IN ({marks}) OR merged_into IN ({marks})"  # noqa: S608 - marks alone
    if not wanted:
        return {}
    told: dict[int, dict[str, list[str]]] = {number: {} for number in wanted}
    for row in db.execute(f"{sql} ORDER BY merged_into IS NOT NULL, id", [*wanted, *wanted]).fetchall():
        own = told[row["merged_into"] or row["id"]]
        for sort, column in (("name", "name"), ("telephone", "telephone"), ("email", "email")):
            sort = "former-name" if sort == "name" and row["merged_into"] else sort
            own.setdefault(sort, []).append(row[column])
    return told


def _file(db: Database, number: int, customer: Customer) -> None:
    sought = sought_text((customer.name, customer.telephone, customer.email))
    db.execute("UPDATE customers SET sought = ? WHERE id = ?", [sought, number])
    db.execute("DELETE FROM customer_keys WHERE customer = ?", [number])
    for kind, key in keys_of(customer.name, customer.country, customer.telephone, customer.email):
        db.execute("INSERT INTO customer_keys VALUES (?, ?, ?)", [number, kind, key])


def _row(customer: Customer, dealer: str | None) -> dict[str, Any]:
    return {"dealer": dealer, "trade": int(customer.trade), **{name: getattr(customer, name) for name in COLUMNS}}


def customer_of(row: Row) -> Customer:
    """A row of customers as what it says."""
    own = {name: row[name] for name in (*COLUMNS, "dealer", "id")}
    return Customer(**own, trade=bool(row["trade"]))


def _kept(row: Row) -> Kept:
    at = maybe_moment(row["erased_at"])
    erased = None if at is None else Erased(at, row["erased_by"], row["erased_why"])
    return Kept(customer_of(row), row["version"], row["merged_into"], erased)
