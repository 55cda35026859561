"""Whether two customers may be one and the same: by telephone, by e-mail, by name in the same country. It only asks.

Each customer is filed under a few keys, and only who shares one with another is compared with him: so nobody has to be
compared with everybody. Nothing is decided here, and nothing is merged.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from difflib import SequenceMatcher
from enum import Enum
from unicodedata import combining, normalize

from app.domain.customers.customer import Customer
from app.domain.finding import subscriber

#: From this likeness on two names may be one, written differently.
NEAR = 0.84

#: Letters of a word of a name by which it is filed: a slip further on leaves them as they are.
FILED_BY = 3

#: How some languages write one letter as two.
_AS_TWO = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ø": "oe", "å": "aa", "æ": "ae", "œ": "oe"})

#: What a firm or a person is called beside the name.
_BESIDE = frozenset(
    ("mr", "mrs", "ms", "dr", "herr", "frau", "ltd", "limited", "gmbh", "co", "kg", "inc", "llc", "pty", "und", "and")
)


class Ground(Enum):
    """What speaks for it, the strongest first."""

    TELEPHONE = "telephone"
    EMAIL = "email"
    NAME = "name"
    NEAR_NAME = "near-name"
    NAME_ABROAD = "name-abroad"


def grounds(one: Customer, other: Customer) -> tuple[Ground, ...]:
    """What speaks for their being one; empty where nothing does."""
    return tuple(_grounds(one, other))


def keys_of(name: str, country: str, telephone: str, email: str) -> tuple[tuple[str, str], ...]:
    """(kind, key), each once: who shares none of them with another is not like him."""
    return tuple(dict.fromkeys(_keys(name, country, telephone, email)))


def near_to(name: str) -> Callable[[str], bool]:
    """Whether another whole name, as names are filed, may be this one with a slip of the pen.

    One that its length alone, or its letters in whatever order, set too far apart is not compared any further.
    """
    letters = SequenceMatcher(None, "", name, autojunk=False)

    def near(other: str) -> bool:
        letters.set_seq1(other)
        if letters.real_quick_ratio() < NEAR or letters.quick_ratio() < NEAR:
            return False
        return SequenceMatcher(None, name, other, autojunk=False).ratio() >= NEAR

    return near


def _grounds(one: Customer, other: Customer) -> Iterator[Ground]:
    if _both(subscriber(one.telephone), subscriber(other.telephone)):
        yield Ground.TELEPHONE
    if _both(_address(one.email), _address(other.email)):
        yield Ground.EMAIL
    yield from _by_name(_words(one.name), _words(other.name), one.country == other.country)


def _by_name(one: tuple[str, ...], other: tuple[str, ...], same_country: bool) -> Iterator[Ground]:
    """A slip counts within one country alone; the whole name in any, for the country is often not asked yet."""
    if not one or not other:
        return
    if one == other:
        yield Ground.NAME if same_country else Ground.NAME_ABROAD
    elif same_country and near_to(" ".join(one))(" ".join(other)):
        yield Ground.NEAR_NAME


def _keys(name: str, country: str, telephone: str, email: str) -> Iterator[tuple[str, str]]:
    if dialled := subscriber(telephone):
        yield "telephone", dialled
    if address := _address(email):
        yield "email", address
    if words := _words(name):
        yield "whole", " ".join(words)
    for word in words:
        yield "name", f"{country}:{word[:FILED_BY]}"


def _both(one: str, other: str) -> bool:
    return one != "" and one == other


def _address(email: str) -> str:
    return email.strip().casefold()


def _words(name: str) -> tuple[str, ...]:
    """In the order of the alphabet, since some write the family's name first."""
    plain = normalize("NFKD", normalize("NFC", name).casefold().translate(_AS_TWO))
    letters = "".join(letter for letter in plain if not combining(letter))
    return tuple(sorted(word for word in re.findall(r"\w+", letters) if word not in _BESIDE))
