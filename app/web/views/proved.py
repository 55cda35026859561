"""What was proved of a book as plain data for the schemas. Shaping only: no amount is hidden here."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.services.books.proving import Compared, Proved
from app.web.telling.comparison import comparison_sentences
from app.web.telling.findings import Finding, choice_named, donor_named, example, findings, line_named, summary
from app.web.telling.speech import Speech
from app.web.views.things import slots
from rules.model import Book
from rules.proof import StandardShell
from rules.proof.compare import Moved, PriceMoved
from rules.specification import Donor


def proof_view(proved: Proved, language: str) -> dict[str, Any]:
    """All findings with their sentences, faults first."""
    proof, told = proved.proof, findings(proved.book, proved.proof, language)
    sentence, remarks = summary(told, language)
    return {
        "book": proved.book.number,
        "tool_state": proved.tools.number,
        "sound": proof.sound,
        "sentence": sentence,
        "remarks": remarks,
        "count": proof.count,
        "outright": proof.outright,
        "variants": proof.variants,
        "counts": proof.counts,
        "capped": proof.capped,
        "findings": [_finding(proved.book, finding, language) for finding in told],
    }


def standard_view(proved: Proved, language: str) -> dict[str, Any]:
    """Usual specifications that can be built, and those that can't."""
    book, proof = proved.book, proved.proof
    return {
        "book": book.number,
        "tool_state": proved.tools.number,
        "lists": book.lists,
        "shells": [_shell(book, shell, language) for shell in proof.standard],
        "broken": [_car(book, shell, language) | {"causes": shell.causes} for shell in proof.broken],
    }


def comparison_view(compared: Compared, language: str) -> dict[str, Any]:
    """What is lost, gained and priced otherwise."""
    new, old, found = compared.new, compared.old, compared.comparison
    names = _Names(new, old, language)
    return {
        "book": new.number,
        "against": old.number,
        "tool_state": compared.tools.number,
        "sentences": comparison_sentences(new, old, found, language),
        "whole": _moved(found.whole, names),
        "structure": None if found.structure is None else _moved(found.structure, names),
        "prices": [_price(moved, names) for moved in found.prices],
        "old_options": found.old_options,
        "new_options": found.new_options,
        "old_lines": found.old_lines,
        "new_lines": found.new_lines,
        "terms": found.terms,
    }


def _finding(book: Book, finding: Finding, language: str) -> dict[str, Any]:
    return {
        "sort": finding.sort,
        "fault": finding.fault,
        "weight": finding.weight,
        "about": finding.about,
        "causes": finding.causes,
        "witness": finding.witness,
        "sentence": finding.sentence,
        "example": example(book, finding, language),
    }


def _shell(book: Book, shell: StandardShell, language: str) -> dict[str, Any]:
    return _car(book, shell, language) | {
        "specification": shell.specification,
        "needs": shell.gates,
        "prices": {price.list: price.amount for price in shell.prices},
    }


def _car(book: Book, shell: StandardShell, language: str) -> dict[str, Any]:
    donor = shell.donor
    told = {
        "series": donor.series,
        "number": donor.number,
        "gearbox": donor.gearbox,
        "label": donor_named(book, donor, language),
    }
    return {"keys": shell.keys, "donor": None if donor == Donor() else told}


class _Names:
    """Labels by the newer book, by the older where only that has the thing."""

    def __init__(self, new: Book, old: Book, language: str) -> None:
        self._books = new, old
        self._speeches = Speech(new, language), Speech(old, language)
        self.currencies = {one.id: one.currency for book in (old, new) for one in book.lists}

    def choice(self, option: str, choice: str) -> str:
        return choice_named(self._speeches[0 if _has(self._books[0], option, choice) else 1], option, choice)

    def line(self, line: str) -> str:
        return line_named(self._speeches[0], line)


def _has(book: Book, option_id: str, choice_id: str) -> bool:
    return any(
        option.id == option_id and any(choice.id == choice_id for choice in option.choices) for option in book.options
    )


def _moved(moved: Moved, names: _Names) -> Mapping[str, Any]:
    return {
        **slots(moved, "over", "old", "new", "kept", "lost", "gained"),
        "choices": [
            {
                "option": one.option,
                "choice": one.choice,
                "label": names.choice(one.option, one.choice),
                "lost": one.lost,
                "gained": one.gained,
            }
            for one in moved.choices
            if one.lost or one.gained
        ],
        "lost_examples": moved.lost_examples,
        "gained_examples": moved.gained_examples,
    }


def _price(moved: PriceMoved, names: _Names) -> dict[str, Any]:
    return {
        "line": moved.line,
        "label": names.line(moved.line),
        "list": moved.list,
        "currency": names.currencies[moved.list],
        "was": moved.was,
        "now": moved.now,
    }
