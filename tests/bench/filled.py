"""A desk with many quotations behind it, made in bulk, once for each schema and kept in build/filled.

The demo's own work is copied again and again, each time for another customer with another car, further back in time:
so drafts, answers, orders, payments, documents, approvals and letters lie as thick as there. What lies within the last
two months is the same in a large desk and in a small one, and what a page shows of each list is there in both: so they
differ in how much lies behind a page, not in how much is on it. Papers and photographs are left out: each is only read
by its own key.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import sqlite3
from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from app.config import CHEAP
from app.domain.customers.likeness import keys_of
from app.domain.finding import sought_text
from app.domain.paging import SIZE
from app.factory import hasher_of
from app.services.people import signing_in
from app.store.db import Store
from app.store.migrations import m0013_growth, m0034_under_way, modules
from demo.loading import BOOK, SINCE, load, set_up
from demo.people import PEOPLE

NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)
KEPT = Path("build") / "filled"
SEED = 1

#: From where those are counted that fill a page in every desk, a thousand for each list.
MORE = 900_000

#: So many of each: what a page shows, and one more.
A_PAGE = SIZE + 1

#: Days since whom nothing has moved who is proposed for erasing.
STILL = 400

#: Days over which the older work is spread, and how far back it begins.
YEARS, BEGINS = 20 * 365, 60
BEGUN = (NOW - timedelta(days=BEGINS)).date().isoformat()

#: Tables in the order in which they are filled, and whose row each column names. A line comes before its revision, for
#: nothing is added to an issued one.
TABLES: Mapping[str, Mapping[str, str]] = {
    "customers": {},
    "donors": {},
    "donor_pictures": {"donor": "donors"},
    "enquiries": {"customer": "customers", "donor": "donors"},
    "quotations": {"enquiry": "enquiries"},
    "revision_lines": {"revision": "revisions"},
    "revision_extras": {"revision": "revisions"},
    "revisions": {"quotation": "quotations"},
    "revision_acts": {"revision": "revisions"},
    "orders": {"quotation": "quotations"},
    "order_bases": {"order_id": "orders", "revision": "revisions"},
    "order_lines": {"basis": "order_bases", "revision_line": "revision_lines"},
    "shells": {"order_line": "order_lines"},
    "shell_deeds": {"shell": "shells"},
    "confirmations": {"basis": "order_bases"},
    "promises": {"order_id": "orders"},
    "visits": {"order_id": "orders"},
    "gate_days": {"order_id": "orders"},
    "payments": {"order_id": "orders"},
    "payment_agreements": {"payment": "payments"},
    "documents": {"order_id": "orders", "payment": "payments"},
    "approvals": {"quotation": "quotations"},
    "approval_acts": {"approval": "approvals"},
    "requests": {"revision": "revisions"},
    "request_ends": {"request": "requests"},
    "refusals": {"enquiry": "enquiries"},
    "sendings": {"revision": "revisions"},
    "history": {},
}

#: How the rows of one piece of work are found, from those of the table before.
_OF = {
    "customers": "SELECT * FROM customers WHERE id = (SELECT customer FROM enquiries WHERE id = :enquiry)",
    "donors": "SELECT * FROM donors WHERE id = (SELECT donor FROM enquiries WHERE id = :enquiry)",
    "donor_pictures": "SELECT * FROM donor_pictures WHERE donor = (SELECT donor FROM enquiries WHERE id = :enquiry)",
    "enquiries": "SELECT * FROM enquiries WHERE id = :enquiry",
    "quotations": "SELECT * FROM quotations WHERE enquiry = :enquiry",
    "history": "SELECT * FROM history WHERE (thing = 'enquiry' AND name = :reference) "
    "OR (thing = 'quotation' AND name = :number) OR (thing = 'order' AND name = :order)",
}

_MOMENTS = frozenset(("at", "created_at", "updated_at", "issued_at", "valid_until", "said_at", "made_at", "asked_at"))
_DAYS = frozenset(("day", "dated", "sent_on", "rate_day", "wanted_by", "first_day", "end_day"))
#: Texts in which names and numbers stand.
_TELLING = frozenset(
    ("frozen", "content", "text", "facts", "said_by", "addressee", "number", "name", "reference", "quotation", "serial")
)

_FIRST = (
    "Agnes Alder Ambrose Basil Beatrix Clement Cordelia Dorcas Edwin Elspeth Enid Ferdinand Flora Gideon Greta Hester "
    "Hugo Idris Ingrid Jasper Jonas Juno Lambert Leopold Lydia Magnus Mabel Nathan Odette Oswin Petra Quentin "
    "Rowena Rufus Selma Silas Tabitha Theo Ursula Vernon Wilma Yorick"
)
_SUR = "Thorn Wick Ash Brack Cold Dun Elm Fenn Gorse Hart Ing Kel Lang Mar Nor Oak Pen Quar Rush Stan Tar Ux Ver Wol"
_NAME = "bury dale field gate ham ington ley mere ness over pole quist rick stead thorpe ton vale ward worth yard"


@dataclass(frozen=True)
class Row:
    """A row of the demo's, taken apart once: what stays, what moves back in time, texts in pieces between names."""

    key: int | None
    stays: dict[str, Any]
    moments: dict[str, datetime]
    days: dict[str, date]
    texts: dict[str, list[str]]

    def again(self, back: timedelta, words: Mapping[str, str]) -> dict[str, Any]:
        """The same so long ago, of whom `words` tell."""
        return {
            **self.stays,
            **{name: (at - back).isoformat(timespec="microseconds") for name, at in self.moments.items()},
            **{name: (day - back).isoformat() for name, day in self.days.items()},
            **{name: "".join([words.get(piece, piece) for piece in text]) for name, text in self.texts.items()},
        }


@dataclass
class Work:
    """One piece of the demo's work: its rows table by table, and the names and numbers that stand in them."""

    rows: dict[str, list[Row]]
    name: str
    car: str
    numbers: tuple[str, ...]


def filled(count: int, *, kept: Path = KEPT, a_page: int = A_PAGE, demo: Path | None = None) -> Path:
    """The database of a desk with so many quotations, and `a_page` of each list: made if it isn't there yet.

    `demo`: the database of a loaded demo; loaded for it where there is none.
    """
    at = kept / f"{count}-{a_page}-{_key()}.sqlite3"
    if not at.exists():
        kept.mkdir(parents=True, exist_ok=True)
        part = at.with_suffix(f".{os.getpid()}.part")
        _make(part, count, a_page, list(_works(demo)) if demo else _loaded())
        part.replace(at)
    return at


def _key() -> str:
    """Of schema, book, seed and this file: when any of them changes, the store is made anew."""
    told = [f"{SEED}", *modules(), BOOK.read_text(encoding="utf-8"), Path(__file__).read_text(encoding="utf-8")]
    for name in modules():
        told.append((Path("app/store/migrations") / f"{name}.py").read_text(encoding="utf-8"))
    return hashlib.sha256("\x1f".join(told).encode()).hexdigest()[:12]


def _loaded() -> list[Work]:
    with TemporaryDirectory() as folder:
        store = Store(Path(folder) / "demo.sqlite3")
        load(store, NOW)
        store.close()
        return list(_works(store.path))


def _make(path: Path, count: int, a_page: int, works: list[Work]) -> None:
    _begin(path)
    with closing(sqlite3.connect(path, isolation_level=None)) as db:  # holds no row to its order, so lines may be first
        for pragma in ("synchronous=OFF", "journal_mode=MEMORY", "cache_size=-400000"):
            db.execute(f"PRAGMA {pragma}")
        db.execute("BEGIN")
        for kept in (m0013_growth, m0034_under_way):
            kept.let_go(db)
        guards = db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for name, _ in guards:
            db.execute(f"DROP TRIGGER {name}")
        _fill(db, works, count, a_page)
        for kept in (m0013_growth, m0034_under_way):
            kept.keep(db)
        for _, guard in guards:
            db.execute(guard)
        db.execute("COMMIT")
        db.execute("PRAGMA journal_mode=DELETE")


def _begin(path: Path) -> None:
    """The firm, its book, dealers, tools and people."""
    store, hasher = Store(path), hasher_of(CHEAP)
    with store.writing():
        set_up(store, NOW - timedelta(days=SINCE))
        for person, password in PEOPLE:
            signing_in.add_person(store, hasher, person, password, NOW - timedelta(days=1))
    store.close()


def _works(path: Path | str) -> Iterator[Work]:
    """The demo's, in the order in which they were taken down."""
    with closing(sqlite3.connect(path)) as db:
        db.row_factory = sqlite3.Row
        for row in db.execute("SELECT enquiry FROM quotations ORDER BY created_at, id").fetchall():
            yield _work(db, row["enquiry"])


def _work(db: sqlite3.Connection, enquiry: int) -> Work:
    rows: dict[str, list[dict[str, Any]]] = {}
    facts: dict[str, Any] = {"enquiry": enquiry, "reference": "", "number": "", "order": ""}
    for table, columns in TABLES.items():
        if table in _OF:
            found = db.execute(_OF[table], facts).fetchall()
        else:
            column, of = next(iter(columns.items()))
            parents = [row["id"] for row in (rows[of] if of in rows else _early(db, rows))]
            marks = ", ".join("?" * len(parents))
            found = db.execute(f"SELECT * FROM {table} WHERE {column} IN ({marks})", parents).fetchall()
        rows[table] = [dict(row) for row in found]
        for key, of, name in (
            ("reference", "enquiries", "reference"),
            ("number", "quotations", "number"),
            ("order", "orders", "number"),
        ):
            if table == of and rows[table]:
                facts[key] = rows[table][0][name]
    return _apart(rows)


def _apart(rows: Mapping[str, list[dict[str, Any]]]) -> Work:
    numbered = [row["number"] for table in ("quotations", "orders", "documents") for row in rows[table]]
    serials = [row["serial"] for row in rows["shells"] if row["serial"]]
    numbers = (rows["enquiries"][0]["reference"], *numbered, *serials)
    name, car = rows["customers"][0]["name"], rows["enquiries"][0]["car"]
    words = sorted((word for word in (name, car, *numbers) if word), key=len, reverse=True)
    told = re.compile(f"({'|'.join(map(re.escape, words))})")
    return Work({table: [_row(row, told) for row in own] for table, own in rows.items()}, name, car, numbers)


def _row(row: Mapping[str, Any], told: re.Pattern[str]) -> Row:
    said = {name: value for name, value in row.items() if value is not None}
    moments = {name: datetime.fromisoformat(said[name]) for name in said if name in _MOMENTS}
    days = {name: date.fromisoformat(said[name]) for name in said if name in _DAYS}
    texts = {name: told.split(said[name]) for name in said if name in _TELLING and isinstance(said[name], str)}
    moving = {*moments, *days, *texts}
    stays = {name: None if name in moving else value for name, value in row.items()}
    return Row(row.get("id"), stays, moments, days, texts)


def _early(db: sqlite3.Connection, rows: Mapping[str, list[dict[str, Any]]]) -> list[sqlite3.Row]:
    """Revisions, asked for by their lines before they are read themselves."""
    return db.execute("SELECT id FROM revisions WHERE quotation = ?", [rows["quotations"][0]["id"]]).fetchall()


class _Filling:
    """Rows wait here until there are enough of them."""

    def __init__(self, db: sqlite3.Connection) -> None:
        self.db = db
        self.next: Counter[str] = Counter()
        self.waiting: dict[str, list[dict[str, Any]]] = {table: [] for table in (*TABLES, "customer_keys")}
        self.series: Counter[str] = Counter()
        (deeds,) = db.execute("SELECT sql FROM sqlite_master WHERE name = 'shell_deeds'").fetchone()
        #: How a shell leaves, in a release that knows of it.
        self.leave = [{"deed": "despatched", "signed": "oona"}] if "'despatched'" in deeds else []
        for series, last in db.execute("SELECT series, last FROM counters").fetchall():
            self.series[series] = last
        self.next["history"] = db.execute("SELECT max(id) FROM history").fetchone()[0] or 0

    def numbered(self, letter: str, year: str) -> str:
        """The next number of that series."""
        series = f"{letter}-{year}"
        self.series[series] += 1
        return f"{series}-{self.series[series]:05d}"

    def flush(self) -> None:
        for table, rows in self.waiting.items():
            if rows:
                names = list(rows[0])
                marks = ", ".join(f":{name}" for name in names)
                self.db.executemany(f"INSERT INTO {table} ({', '.join(names)}) VALUES ({marks})", rows)
                rows.clear()


def _fill(db: sqlite3.Connection, works: list[Work], count: int, a_page: int) -> None:
    """So many quotations, and in every desk as many more as a page of each list shows."""
    filling = _Filling(db)
    for place in range(a_page):
        _a_row_of_each(filling, works, place)
    blocks = -(-count // len(works))
    for place in range(count):
        back = (count - 1 - place) // len(works)
        work = works[-1 - (count - 1 - place) % len(works)]
        days = 0 if back == 0 else BEGINS + round((back - 1) * YEARS / max(blocks, 2174))
        _copy(filling, work, count - 1 - place, days)
        if place % 1000 == 999:
            filling.flush()
    filling.flush()
    for series, last in filling.series.items():
        db.execute("INSERT OR REPLACE INTO counters (series, last) VALUES (?, ?)", [series, last])


def _a_row_of_each(filling: _Filling, works: list[Work], place: int) -> None:
    """A dealer's draft, all of one name and car; an approval of each stage; a request that waits; one long still."""
    draft = next(work for work in works if _is_draft(work, "lindenhof"))
    asked = next(work for work in works if work.rows["requests"])
    _copy(filling, draft, MORE + place, 1 + place, like=MORE)
    _copy(filling, draft, MORE + 1000 + place, STILL + place)
    for n, work in enumerate((asked, *(work for work in works if work.rows["approvals"]))):
        _copy(filling, work, MORE + 1000 * (n + 2) + place, 1 + place)


def _is_draft(work: Work, dealer: str) -> bool:
    return [(row.stays["standing"], row.stays["dealer"]) for row in work.rows["quotations"]] == [("draft", dealer)]


def _copy(filling: _Filling, work: Work, age: int, days: int, like: int | None = None) -> None:
    """`age`: how many were taken down since; `like`: who shares his name and his car.

    The last ones keep their own names, so that both desks hold them.
    """
    first, back, told = days == 0, timedelta(days=days), age if like is None else like
    name = work.name if first else _name(told)
    year = str((NOW - back).year)
    words = {work.name: name, **_numbered(filling, work, year)}
    car, number = (work.car, None) if first else _car(work, told)
    words.setdefault(work.car, car)
    keys: dict[tuple[str, int], int] = {}
    for table in TABLES:
        for row in work.rows[table]:
            if row.key is not None:
                filling.next[table] += 1
                keys[table, row.key] = filling.next[table]
    for table, columns in TABLES.items():
        # A line is written before its revision, but the revision's new number is known already.
        for row in work.rows[table]:
            new = row.again(back, words)
            if row.key is not None:
                new["id"] = keys[table, row.key]
            for column, of in columns.items():
                new[column] = keys[of, new[column]] if new[column] is not None else None
            _own(table, new, age, car, number, name, first)
            if table != "visits" or days < BEGINS or new["end_day"] <= BEGUN:
                filling.waiting[table].append(new)
    if days >= BEGINS:
        _built(filling, work, year)
        _ended(filling, work)
    _found_by(filling, work, name)


def _built(filling: _Filling, work: Work, year: str) -> None:
    """What was ordered so long ago was built and has left: each shell with its serial, through every stage."""
    begun = filling.waiting["shell_deeds"]
    del begun[len(begun) - len(work.rows["shell_deeds"]) :]
    for shell in filling.waiting["shells"][len(filling.waiting["shells"]) - len(work.rows["shells"]) :]:
        at = filling.waiting["orders"][-1]["made_at"]
        shell["serial"] = shell["serial"] or filling.numbered("S", year)
        done = [{"deed": "done", "stage": stop["stage"], "signed": "idris"} for stop in ROUTE if stop["work"] != "none"]
        for deed in ({"deed": "released", "route": json.dumps(ROUTE)}, *done, *filling.leave):
            filling.next["shell_deeds"] += 1
            plain = {"id": filling.next["shell_deeds"], "shell": shell["id"], "why": "", "at": at, "by": "tomasz"}
            begun.append({"stage": None, "route": None, "signed": None, **plain, **deed})


def _ended(filling: _Filling, work: Work) -> None:
    """Nobody waits so long for a formal quotation."""
    asked = filling.waiting["requests"]
    known = {row["request"] for row in filling.waiting["request_ends"]}
    for row in asked[len(asked) - len(work.rows["requests"]) :]:
        if row["id"] not in known:
            end = {"request": row["id"], "how": "withdrawn", "why": "", "at": row["at"], "by": row["by"]}
            filling.waiting["request_ends"].append(end)


def _found_by(filling: _Filling, work: Work, name: str) -> None:
    """What customer and enquiry are found and known again by, as the store writes it."""
    customer, enquiry = filling.waiting["customers"][-1], filling.waiting["enquiries"][-1]
    donor = filling.waiting["donors"][-1]
    own = (customer["name"], customer["telephone"], customer["email"])
    customer["sought"] = sought_text(own)
    enquiry["sought"] = sought_text(dict.fromkeys((enquiry["reference"], enquiry["car"], donor["number_text"], *own)))
    for kind, key in keys_of(customer["name"], customer["country"], customer["telephone"], customer["email"]):
        filling.waiting["customer_keys"].append({"customer": customer["id"], "kind": kind, "key": key})


def _own(table: str, row: dict[str, Any], age: int, car: str, number: int | None, name: str, first: bool) -> None:
    """What no two of them share."""
    if table == "customers" and not first:
        row["name"] = name
        row["telephone"] = row["telephone"] and f"+44 1632 {age:06d}"
        row["email"] = row["email"] and f"{name.replace(' ', '.').lower()}.{age}@example.org"
    elif table == "donors" and number is not None:
        row["number_text"], row["number"] = car, row["number"] and number
    elif table == "donor_pictures":
        row["photograph"] = None
    elif table == "enquiries":
        row["car"] = car
    elif table == "revisions" and row["code"] is not None:
        row["code"] = f"{age:08x}{row['letter']}{row['id']:08x}"
    elif table == "documents" and row["xml"] is not None and age > 1000:
        row["xml"] = b"<left-out/>"
    elif table == "visits" and not first:
        row["is_slot"] = 0


def _numbered(filling: _Filling, work: Work, year: str) -> dict[str, str]:
    """The old number → the new: the running one of its year."""
    return {old: filling.numbered(old[0], year) for old in work.numbers}


def _name(age: int) -> str:
    firsts, sur, end = _FIRST.split(), _SUR.split(), _NAME.split()
    there = age // len(firsts)
    return f"{firsts[age % len(firsts)]} {sur[there % len(sur)]}{end[there // len(sur) % len(end)]}"


#: The way of most shells.
_STAGES = ("sub-assembly", "framing", "rollover", "skinning", "fit-and-gap", "inspection", "preparation", "buffer")
_WORKS = {"inspection": "inspection", "buffer": "none"}
ROUTE = [{"stage": stage, "work": _WORKS.get(stage, "build")} for stage in _STAGES]

_RANGES = {"T1": (251, 8450), "T2": (1, 21300), "T3": (1, 40975), "T4": (1, 19040)}


def _car(work: Work, age: int) -> tuple[str, int | None]:
    """Another car of the same series."""
    if not work.car:
        return "", None
    prefix = work.car[:2]
    low, high = _RANGES[prefix]
    number = low + age * 7919 % (high - low + 1)
    return f"{prefix}-{number:05d}", number
