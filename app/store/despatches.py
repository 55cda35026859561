"""Packings, despatches with their papers, dealers' credit and what is said on export papers: all of it only grows."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from hashlib import sha256
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.despatch.despatch import Credit, Despatched, Packing, Trade
from app.domain.quotations.quotation import PaperKept
from app.store.frozen import frozen_text, thawed
from app.store.texts import moment, moment_text

_ADD = """
INSERT INTO despatches (number, shell, order_id, place, content, at, by, signed) VALUES (?, ?, ?, ?, ?, ?, ?, ?)
"""


def pack(db: Database, shell: int, packing: Packing, by: str, now: datetime) -> None:
    """The last one counts."""
    row = [shell, frozen_text(packing), moment_text(now), by]
    db.execute("INSERT INTO packings (shell, content, at, by) VALUES (?, ?, ?, ?)", row)


def packing(db: Database, shell: int) -> Packing | None:
    sql = "SELECT content FROM packings WHERE shell = ? ORDER BY id DESC LIMIT 1"
    row = db.execute(sql, [shell]).fetchone()
    return None if row is None else thawed(Packing, row["content"])


def add(db: Database, made: Despatched, order: int, content: str) -> None:
    """`content`: what its papers say, frozen as text."""
    head = [made.number, made.shell, order, made.place, content]
    db.execute(_ADD, [*head, moment_text(made.at), made.by, made.signed])


def of_order(db: Database, order: int) -> Mapping[int, Despatched]:
    """By the shell's key."""
    rows = db.execute("SELECT * FROM despatches WHERE order_id = ? ORDER BY id", [order]).fetchall()
    return {row["shell"]: _despatched(row) for row in rows}


def of_shell(db: Database, shell: int) -> tuple[Despatched, str] | None:
    """With what its papers say, as it was frozen."""
    row = db.execute("SELECT * FROM despatches WHERE shell = ?", [shell]).fetchone()
    return None if row is None else (_despatched(row), row["content"])


def orders_of_dealer(db: Database, dealer: str) -> tuple[str, ...]:
    """Numbers of his orders of which a shell has left."""
    sql = """
    SELECT DISTINCT orders.number FROM despatches JOIN orders ON orders.id = despatches.order_id
    JOIN quotations ON quotations.id = orders.quotation WHERE quotations.dealer = ? ORDER BY orders.id
    """
    return tuple(row["number"] for row in db.execute(sql, [dealer]).fetchall())


def add_paper(db: Database, number: str, paper: str, kind: tuple[str, str], pdf: bytes) -> None:
    """`kind`: language and size."""
    sql = """
    INSERT INTO despatch_papers (despatch, paper, language, size, sha256, pdf)
    SELECT id, ?, ?, ?, ?, ? FROM despatches WHERE number = ?
    """
    db.execute(sql, [paper, *kind, sha256(pdf).hexdigest(), pdf, number])


def paper(db: Database, number: str, paper: str, kind: tuple[str, str]) -> bytes | None:
    sql = """
    SELECT pdf FROM despatch_papers JOIN despatches ON despatches.id = despatch
    WHERE number = ? AND paper = ? AND language = ? AND size = ?
    """
    row = db.execute(sql, [number, paper, *kind]).fetchone()
    return None if row is None else bytes(row["pdf"])


def papers(db: Database, number: str, paper: str) -> tuple[PaperKept, ...]:
    """Those that are stored."""
    sql = """
    SELECT language, size, sha256 FROM despatch_papers JOIN despatches ON despatches.id = despatch
    WHERE number = ? AND paper = ? ORDER BY despatch_papers.id
    """
    return tuple(PaperKept(*row) for row in db.execute(sql, [number, paper]).fetchall())


def keep_record(db: Database, shell: int, code: str, text: bytes, now: datetime) -> None:
    """The as-built record, byte for byte; a shell has one."""
    row = [shell, code, sha256(text).hexdigest(), text, moment_text(now)]
    db.execute("INSERT INTO as_built (shell, code, sha256, text, at) VALUES (?, ?, ?, ?, ?)", row)


def record(db: Database, code: str) -> tuple[bytes, str] | None:
    """(text, its SHA-256 as it was kept); None for no code of ours."""
    row = db.execute("SELECT text, sha256 FROM as_built WHERE code = ?", [code]).fetchone()
    return None if row is None else (bytes(row["text"]), row["sha256"])


def record_code(db: Database, shell: int) -> str | None:
    row = db.execute("SELECT code FROM as_built WHERE shell = ?", [shell]).fetchone()
    return None if row is None else row["code"]


def credits(db: Database, dealer: str) -> tuple[Credit, ...]:
    """All that was ever said, in its order."""
    rows = db.execute("SELECT * FROM dealer_credits WHERE dealer = ? ORDER BY id", [dealer]).fetchall()
    return tuple(_credit(row) for row in rows)


def give_credit(db: Database, credit: Credit) -> None:
    row = [credit.dealer, credit.currency, credit.limit, credit.day.isoformat(), credit.why]
    sql = "INSERT INTO dealer_credits (dealer, currency, amount, day, why, at, by) VALUES (?, ?, ?, ?, ?, ?, ?)"
    db.execute(sql, [*row, moment_text(credit.at), credit.by])


def trade(db: Database) -> Trade:
    """As it was last set."""
    row = db.execute("SELECT content FROM export_terms ORDER BY id DESC LIMIT 1").fetchone()
    return Trade() if row is None else thawed(Trade, row["content"])


def set_trade(db: Database, told: Trade, by: str, now: datetime) -> None:
    row = [frozen_text(told), moment_text(now), by]
    db.execute("INSERT INTO export_terms (content, at, by) VALUES (?, ?, ?)", row)


def _despatched(row: Row) -> Despatched:
    return Despatched(row["number"], row["shell"], row["place"], moment(row["at"]), row["by"], row["signed"])


def _credit(row: Row) -> Credit:
    told = (row["dealer"], row["currency"], row["amount"], date.fromisoformat(row["day"]), row["why"])
    return Credit(*told, row["by"], moment(row["at"]))
