"""Changes on a shell and their notes as plain data: what may be asked for, what it would be, and what was agreed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from app.domain.orders.change_note import ChangeNote, Content, NoteAct, OptionChange, PlaceChange, Range
from app.services.floor.finding import FoundShell
from app.services.orders.changing import Weighed
from app.services.orders.redating import Instead
from app.services.quotations.papering import kind_for
from app.web import here
from app.web.views.dated import proposal_view
from app.web.views.ordered import shell_name
from app.web.views.things import papers_view, slots, stage_label
from app.wording import say
from rules.model import Book, Words
from rules.workshop.late import taken_each


def changeable_view(at: FoundShell, come: tuple[str, ...]) -> dict[str, Any]:
    """The shell, every option as it stands, and how a change of it alone would be taken now."""
    order, book, frozen = at.whole.order, at.whole.book, at.gated.frozen
    stands = at.shell.progress
    taken = taken_each(book, frozen.settled, order.frozen.donor.facts(), come, [option.id for option in book.options])
    return {
        "id": at.shell.id,
        "order": order.number,
        "letter": order.revision.letter,
        "shell": at.gated.seat.place,
        "of": len(order.shells),
        "name": shell_name(book, frozen.settled),
        "serial": at.shell.serial,
        "sheet": None if at.shell.sheet is None else at.shell.sheet.revision,
        "state": stands.state.value,
        "stage": stage_label(book, stands.stage),
        "currency": order.frozen.currency,
        "place": slots(order.place),
        "options": [
            {
                "option": option.id,
                "label": option.label,
                "choice": frozen.settled[option.id],
                "taken": one.taken.value,
                "choices": [{"choice": choice.id, "label": choice.label} for choice in option.choices],
            }
            for option, one in zip(book.options, taken, strict=True)
        ],
    }


def weighed_view(found: Weighed) -> dict[str, Any]:
    """What a change would be. `says` the headline, `taken` the gravest of all."""
    book, content = found.book, found.content
    return {
        "taken": found.taken.value,
        "changes": [_change(book, one) for one in found.changes],
        "place": found.goes and _place(found.goes),
        "reasons": [_reason(book, *cause) for cause in found.causes],
        "demands": [
            {"option": one.option, "label": book.option(one.option).label, "choices": list(_choices(book, one))}
            for one in found.demands
        ],
        "unpriced": [_line_label(book, line) for line in found.unpriced],
        "untold": "" if found.untold is None else say(f"tax-untold.{found.untold.why}", here.language()),
        "out": [tool.label for tool in book.tools if tool.id in found.out],
        "can": content is not None,
        "needs_approval": content is not None and content.needs_approval,
        "move": None if found.move is None else proposal_view(found.move),
        "instead": None if found.instead is None else _instead(found.instead),
        **(_NOTHING if content is None else _told(book, content)),
    }


_NOTHING = {"currency": "", "charge": 0, "prices": [], "sums": [], "days": 0, "before": None, "after": None,
            "gained": []}  # fmt: skip


def note_view(note: ChangeNote, at: FoundShell, found: Weighed | None, stored: set[tuple[str, str]]) -> dict[str, Any]:
    """`found`: the same weighed anew, of one that is open."""
    content, book = note.content, at.whole.book
    own = kind_for(book, at.whole.order.frozen.customer, at.whole.order.place.country)
    return {
        "number": note.number,
        "state": note.standing.value,
        "at": note.at,
        "by_name": here.called(note.by),
        "why": content.why,
        "needs_approval": content.needs_approval,
        "stage": stage_label(book, content.come[-1]),
        "changes": [_change(book, one) for one in content.changes],
        "place": content.place and _place(content.place),
        **_told(book, content),
        "acts": [_act(one) for one in note.acts],
        "holds": found is not None,
        "move": None if found is None or found.move is None else proposal_view(found.move),
        "papers": papers_view(book, f"/api/change-notes/{note.number}/paper", stored, own),
    }


def waiting_view(note: ChangeNote, found: FoundShell) -> dict[str, Any]:
    """A note as a list shows it, without a word of money."""
    book = found.whole.book
    return {
        "number": note.number,
        "state": note.standing.value,
        "shell": note.shell,
        "order": found.whole.order.number,
        "serial": found.shell.serial,
        "name": shell_name(book, found.gated.frozen.settled),
        "why": note.content.why,
        "changes": [_change(book, one) for one in note.content.changes],
    }


def _told(book: Book, content: Content) -> dict[str, Any]:
    rows = [{"label": _line_label(book, row.line), **slots(row, "before", "after")} for row in content.prices]
    sums = [
        {"case": one.kind, **slots(one, "net", "tax", "payable", "whole"), "gross": one.gross}
        for one in content.differences
    ]
    gained = content.gained
    return {
        "currency": content.currency,
        "charge": content.charge,
        "prices": rows,
        "sums": sums,
        "days": content.days,
        "before": content.before and _range(content.before),
        "after": content.after and _range(content.after),
        "gained": [_reason(book, rule) for rule in dict.fromkeys((*gained.parts, *gained.approvals, *gained.cautions))],
    }


def _change(book: Book, one: OptionChange) -> dict[str, Any]:
    option = book.option(one.option)
    return {
        "option": one.option,
        "label": option.label,
        "before": option.choice(one.before).label,
        "after": option.choice(one.after).label,
        "choice": one.after,
        "taken": one.taken.value,
    }


def _place(one: PlaceChange) -> dict[str, Any]:
    return {"before": slots(one.before), "after": slots(one.after), "taken": one.taken.value}


def _choices(book: Book, demand: Any) -> Iterator[dict[str, Any]]:
    option = book.option(demand.option)
    for choice in demand.choices:
        yield {"choice": choice, "label": option.choice(choice).label}


def _reason(book: Book, *rules: str) -> dict[str, Any]:
    return {"rules": list(rules), "says": [_words(book, rule) for rule in rules]}


def _words(book: Book, rule: str) -> Words:
    """Rules and tools both say why."""
    named: Iterable[Any] = (*book.rules, *book.tools)
    words: Words = next(one.reason for one in named if one.id == rule)
    return words


def _line_label(book: Book, line: str) -> Words:
    named: Iterable[Any] = (*book.lines, *book.extras)
    found: Words = next(one.label for one in named if one.id == line)
    return found


def _range(one: Range) -> dict[str, Any]:
    return slots(one, "ready", "ready_by")


def _instead(one: Instead) -> dict[str, Any]:
    return {"slot": one.slot, "ready": one.ready and _range(one.ready)}


def _act(one: NoteAct) -> dict[str, Any]:
    return {"said": one.said.value, **slots(one, "who", "day", "why", "at"), "by_name": here.called(one.by)}
