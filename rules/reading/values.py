"""Single values: amounts, percents, whole numbers, days, yes or no. Each reader notes its own mistake."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from enum import Enum
from typing import TypeVar

from iso4217 import Currency

from rules.reading.mistakes import Ledger, offer, sentence, shown

E = TypeVar("E", bound=Enum)
T = TypeVar("T")

#: Marks that stand for “included, no charge” in a table of prices.
INCLUDED = frozenset("-–—−")

#: Major units; far above any shell and far below what a database's whole number holds.
GREATEST_AMOUNT = Decimal(1_000_000_000)

_AMOUNT = re.compile(r"([-−])? ?(\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+|\d+)(?:\.(\d+))?")
_PERCENT = re.compile(r"(\d{1,4}(?:\.\d{1,4})?) ?%")
_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def exponent_of(currency: str) -> int | None:
    """Decimals of the currency's minor unit by ISO 4217; None for an unknown code."""
    try:
        return int(Currency(currency).exponent or 0)
    except ValueError:
        return None


def amount(text: str, exponent: int, line: int, ledger: Ledger) -> int | None:
    """Whole minor units of an amount written in major units (`11 850`, `-420.50`); None after a mistake."""
    found = _AMOUNT.fullmatch(text)
    if not found:
        ledger.add(
            line,
            sentence("“{text}” is no amount", text=shown(text)),
            sentence("write it like 11 850 or 11850.00, a decimal point, no currency sign"),
        )
        return None
    sign, whole, decimals = found.groups()
    value = Decimal(f"{re.sub(r'[^0-9]', '', whole)}.{decimals or 0}")
    return _minor(value, text, bool(sign), decimals or "", exponent, line, ledger)


def _minor(
    value: Decimal, text: str, negative: bool, decimals: str, exponent: int, line: int, ledger: Ledger
) -> int | None:
    if value >= GREATEST_AMOUNT:
        ledger.add(
            line,
            sentence("the amount {text} is too large", text=shown(text)),
            sentence("write less than {most}", most=f"{GREATEST_AMOUNT:,}".replace(",", " ")),
        )
        return None
    if len(decimals.rstrip("0")) > exponent:
        ledger.add(
            line,
            sentence("{text} has more decimals than its currency", text=text),
            sentence("write at most {exponent} decimals", exponent=exponent),
        )
        return None
    return int(value.scaleb(exponent)) * (-1 if negative else 1)


def percent(text: str, line: int, ledger: Ledger) -> Decimal | None:
    """`20 %` as a Decimal from 0 to 100; None after a mistake."""
    found = _PERCENT.fullmatch(text)
    if not found:
        ledger.add(
            line, sentence("“{text}” is no percentage", text=shown(text)), sentence("write it like 20 % or 2.5 %")
        )
        return None
    if Decimal(found[1]) > 100:
        ledger.add(
            line, sentence("{text} is out of range", text=text), sentence("write a percentage from 0 % to 100 %")
        )
        return None
    return Decimal(found[1])


def whole(text: str, line: int, ledger: Ledger, what: str = "a whole number", most: int = 10_000) -> int | None:
    """A whole number from 0 to `most`; None after a mistake."""
    if re.fullmatch(r"\d{1,9}", text, re.ASCII) and int(text) <= most:
        return int(text)
    ledger.add(
        line,
        sentence("“{text}” is not {what}", text=shown(text), what=what),
        sentence("write a whole number from 0 to {most}", most=most),
    )
    return None


def decimal(text: str, line: int, ledger: Ledger, most: int = 1_000) -> Decimal | None:
    """A plain decimal from 0 to `most`; None after a mistake."""
    if re.fullmatch(r"\d{1,6}(\.\d{1,6})?", text, re.ASCII) and Decimal(text) <= most:
        return Decimal(text)
    ledger.add(
        line,
        sentence("“{text}” is not a number", text=shown(text)),
        sentence("write a number from 0 to {most}, like 1.12", most=most),
    )
    return None


def yes_or_no(text: str, line: int, ledger: Ledger) -> bool:
    """`yes` or `no`."""
    if text not in ("yes", "no"):
        ledger.add(line, sentence("“{text}” is neither yes nor no", text=shown(text)), sentence("write yes or no"))
    return text == "yes"


def one_of(kind: type[E], word: str, line: int, ledger: Ledger, what: str) -> E | None:
    """The member of an enumeration that a word names; None after a mistake, whose sentence `what` begins."""
    return meant({str(each.value): each for each in kind}, word, line, ledger, what)


def meant(known: Mapping[str, T], word: str, line: int, ledger: Ledger, what: str) -> T | None:
    """What a known word stands for; None after a mistake, whose sentence `what` begins."""
    if word not in known:
        ledger.add(line, sentence("{what} “{word}”", what=what, word=shown(word)), offer(word, tuple(known)))
    return known.get(word)


def iso_day(text: str, line: int, ledger: Ledger) -> str | None:
    """A day written `2011-01-04`; None after a mistake."""
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", text, re.ASCII):
        ledger.add(
            line, sentence("“{text}” is no date", text=shown(text)), sentence("write year-month-day, like 2027-04-01")
        )
        return None
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        ledger.add(
            line, sentence("{text} does not exist", text=text), sentence("write a day of the calendar, like 2027-04-01")
        )
        return None


def day_of_year(text: str, line: int, ledger: Ledger) -> tuple[int, int] | None:
    """(month, day) of a day written `2 August`, one that every year has; None after a mistake."""
    found = re.fullmatch(r"(\d{1,2}) ([A-Za-z]+)", text, re.ASCII)
    if not found or found[2].capitalize() not in _MONTHS:
        ledger.add(
            line, sentence("“{text}” is no day of the year", text=shown(text)), sentence("write it like 2 August")
        )
        return None
    month, day = _MONTHS.index(found[2].capitalize()) + 1, int(found[1])
    try:
        date(2001, month, day)  # a common year: 29 February would be missing in three years of four
    except ValueError:
        ledger.add(
            line,
            sentence("{text} does not exist every year", text=text),
            sentence("write a day that every year has, like 28 February"),
        )
        return None
    return month, day


def day_written(month_day: tuple[int, int]) -> str:
    """The inverse of `day_of_year`."""
    return f"{month_day[1]} {_MONTHS[month_day[0] - 1]}"
