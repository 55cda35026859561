"""Safety faults as plain data for the schemas. Shaping only."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from app.domain.floor.safety import AtFault, Owner, SafetyFault, Subject
from app.services.floor.overseeing import OnFloor
from app.services.floor.safety import Concerned
from app.web import here
from app.web.views.foreseen import group_view
from app.web.views.ordered import shell_name
from app.web.views.things import slots, stage_label
from app.wording import LANGUAGES, say
from rules.model import Book, Words


def subjects_view(book: Book) -> dict[str, Any]:
    """All that can be picked; rule books are named by their numbers."""
    told = [{"subject": subject.value, "of": of, "label": label} for subject, of, label in _subjects(book)]
    return {"subjects": told, "last_book": book.number, "languages": LANGUAGES}


def fault_view(fault: SafetyFault, book: Book) -> dict[str, Any]:
    at_fault, lifted = fault.at_fault, fault.lifted
    return {
        **slots(fault, "id", "why", "at"),
        **slots(at_fault, "of", "since"),
        "subject": at_fault.subject.value,
        "label": _label(at_fault, book),
        "by_name": here.called(fault.by),
        "lifted": lifted and {**slots(lifted, "at", "why"), "by_name": here.called(lifted.by)},
    }


def consequences_view(found: Concerned) -> dict[str, Any]:
    groups = (("accepted", found.accepted), ("issued", found.issued), ("draft", found.drafts))
    return {"shells": shells_view(found), "touched": [group_view(sort, touched) for sort, touched in groups]}


def shells_view(found: Concerned) -> dict[str, Any]:
    groups = ("not_released", "stopped", "despatched")
    return {group: [_shell(one) for one in getattr(found, group)] for group in groups}


def owner_view(owner: Owner) -> dict[str, Any]:
    written = owner.written
    return {
        **slots(owner, "id", "serial", "order", "despatched", "language", "untold", "subject", "text"),
        **slots(owner.customer, "country", "email", "telephone"),
        "customer": owner.customer.name,
        "dealer_name": None if owner.dealer is None else here.dealer_called(owner.dealer),
        "written": written and {"at": written.at, "by_name": here.called(written.by)},
    }


def _shell(one: OnFloor) -> dict[str, Any]:
    stands = one.shell.progress
    frozen = one.order.lines[one.line - 1].frozen_of(one.shell)
    return {
        **slots(one.shell, "id", "serial"),
        "order": one.order.number,
        "shell": one.seat.place,
        "name": shell_name(one.book, frozen.settled),
        "state": stands.state.value,
        "stage_label": stage_label(one.book, stands.stage),
    }


def _label(at_fault: AtFault, book: Book) -> Words:
    """Of what the book in force no longer has, the id."""
    if at_fault.subject is Subject.BOOKS:
        first, last = at_fault.of.split("-")
        return {language: say("safety.books", language, first=first, last=last) for language in LANGUAGES}
    named = (label for subject, of, label in _subjects(book) if (subject, of) == (at_fault.subject, at_fault.of))
    return next(named, dict.fromkeys(LANGUAGES, at_fault.of))


def _subjects(book: Book) -> Iterator[tuple[Subject, str, Words]]:
    for option in book.options:
        for choice in option.choices:
            yield Subject.CHOICE, f"{option.id}.{choice.id}", _joined(option.label, choice.label)
    stages = {stage.id: stage.label for stage in book.stages}
    things: Sequence[tuple[Subject, str, Words]] = (
        *((Subject.TOOL, tool.id, tool.label) for tool in book.tools),
        *((Subject.OPERATION, one.id, _joined(stages[one.stage], one.text)) for one in book.making.operations),
        *((Subject.ZONE, zone.id, zone.label) for zone in book.making.zones),
    )
    yield from things


def _joined(above: Words, label: Words) -> Words:
    return {language: f"{above.get(language, '')}: {text}" for language, text in label.items()}
