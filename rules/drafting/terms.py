"""A condition as a plain list of terms, where it is one: what a person puts together from lists rather than types."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from rules.condition import All, Any, Condition, Is, IsUsual, Not, SeriesAsDonor


class How(StrEnum):
    """How a term speaks of its option."""

    IS = "is"
    IS_NOT = "is-not"
    USUAL = "usual"
    NOT_USUAL = "not-usual"
    DONORS = "donors"
    NOT_DONORS = "not-donors"


@dataclass(frozen=True, slots=True)
class Term:
    """`choices`: ids in the order asked for; none unless it is an IS or IS_NOT."""

    option: str
    how: How
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Terms:
    """All (`every`) or one of the terms must hold; no term at all: always."""

    every: bool
    terms: tuple[Term, ...]


def terms_of(condition: Condition, series_option: str) -> Terms | None:
    """The terms of a condition; None where it can only be written out."""
    match condition:
        case All(parts):
            return _joined(True, parts, series_option)
        case Any(parts):
            return _joined(False, parts, series_option)
        case _:
            return _joined(True, (condition,), series_option)


def _joined(every: bool, parts: tuple[Condition, ...], series_option: str) -> Terms | None:
    found = [_term(part, series_option) for part in parts]
    terms = tuple(term for term in found if term is not None)
    return Terms(every, terms) if len(terms) == len(found) else None


def _term(condition: Condition, series_option: str) -> Term | None:
    match condition:
        case Is(option, choices):
            return Term(option, How.IS, tuple(sorted(choices)))
        case Not(Is(option, choices)):
            return Term(option, How.IS_NOT, tuple(sorted(choices)))
        case IsUsual(option):
            return Term(option, How.USUAL)
        case Not(IsUsual(option)):
            return Term(option, How.NOT_USUAL)
        case SeriesAsDonor():
            return Term(series_option, How.DONORS)
        case Not(SeriesAsDonor()):
            return Term(series_option, How.NOT_DONORS)
    return None
