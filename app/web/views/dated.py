"""Promises, gates and moves as plain data with their sentences. Shaping only: nothing is worked out here."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from app.dates_said import DatesSaid
from app.domain.floor.gates import Key, Said
from app.domain.floor.shell import ENDED, ShellState
from app.domain.money.export import ExportLimit
from app.domain.planning.slots import Due, Kept, Move, Proposal
from app.domain.stock import StockMove
from app.services.letters.writing_moved import letter_of
from app.services.planning.dating import Dated
from app.services.planning.promising import OrderDates, Shown
from app.web import here
from app.web.addressed import to_reader
from app.web.problems import spoken
from app.web.views.ordered import happening_view
from app.web.views.things import range_view, slots
from app.wording import say
from rules.model import Book
from rules.schedule.promise import Binding, Promise

_NOTHING: Mapping[Key, Said] = {}


def specification_date_view(dated: Dated) -> dict[str, Any]:
    """When a specification would be ready, and why not sooner."""
    promise, book = dated.promise, dated.book
    return {
        "today": dated.today,
        "complete": dated.complete,
        "promise": promise and promise_view(book, promise, dated.due, dated.today),
        "says": _said(book, dated.today).why(promise.bindings, dated.due)
        if promise
        else _why_none(book, dated.undated, dated.can),
        "basis": _say("promise.basis", today=dated.today) + " " + _say("promise.assumed"),
        "gates": [due_view(due) for due in dated.due],
        "sooner": [
            {
                **slots(one, "option", "choice", "also", "days"),
                "label": book.option(one.option).choice(one.choice).label,
                "ready": one.promise.ready,
                "ready_by": one.promise.ready_by,
            }
            for one in dated.sooner
        ],
    }


def order_dates_view(dates: OrderDates, limit: ExportLimit | None) -> dict[str, Any]:
    """Every shell of an order with its promise and its gates; `limit`: by when an export has to leave."""
    return {
        "number": dates.order.number,
        "today": dates.today,
        "export_limit": _limit(limit) if limit is not None and limit.at_risk else None,
        "shells": [_shell(dates, shell) for shell in dates.shells],
        "history": [happening_view(entry) for entry in dates.order.history],
    }


def _limit(limit: ExportLimit) -> dict[str, Any]:
    key = ("missed" if limit.missed else "at-risk") + ("-supposed" if limit.supposed else "")
    plain = slots(limit, "paid", "due", "ready", "ready_by")
    return {**plain, "supposed": limit.supposed, "says": _say(f"export-limit.{key}", **plain)}


def proposal_view(proposal: Proposal) -> dict[str, Any]:
    """What would move, each promise before and after, with the letter for whoever has to be told."""
    barred = proposal.barred and proposal.barred.value
    return {
        "token": proposal.token,
        "moves": [_move(move) for move in proposal.moves],
        "stock": [_makes_room(one) for one in proposal.stock],
        "barred": barred,
        "earliest": proposal.earliest,
        "says": _say(f"promise.barred.{barred}", earliest=proposal.earliest) if barred else "",
    }


def _makes_room(one: StockMove) -> dict[str, Any]:
    return {"number": one.shell.number, "before": one.shell.plan.slot, "after": one.after.slot}


def _move(move: Move) -> dict[str, Any]:
    letter = letter_of(here.store(), here.me(), move, here.now())
    return {
        "number": move.seat.number,
        "shell": move.seat.place,
        "customer": move.customer.name,
        "before": promise_view(move.book, move.before),
        "after": move.after and promise_view(move.book, move.after),
        "letter": letter and slots(letter),
    }


def _shell(dates: OrderDates, shell: Shown) -> dict[str, Any]:
    return {
        "shell": shell.seat.place,
        "line": shell.line,
        "kept": shell.kept and _kept(dates, shell.kept, shell.due),
        "now": shell.now and promise_view(dates.book, _as_planned(shell, shell.now), shell.due, dates.today),
        "stopped": [_say("promise.stopped", of=here.words(why)) for why in shell.faults],
        "adrift": shell.adrift,
        "says": _says(dates, shell),
        "gates": [due_view(due, shell.said) for due in shell.due],
    }


def _kept(dates: OrderDates, kept: Kept, due: tuple[Due, ...]) -> dict[str, Any]:
    """The slot and the stages as they are planned, with the range that the customer was told."""
    return {**promise_view(dates.book, kept.promise, due, dates.today), **range_view(kept.promised)}


def _as_planned(shell: Shown, now: Promise) -> Promise:
    """The promise of that slot says what binds it; worked out anew its slot is a given."""
    planned = None if shell.kept is None else shell.kept.promise
    return planned if planned is not None and range_view(planned) == range_view(now) else now


def _says(dates: OrderDates, shell: Shown) -> str:
    """What became of the promise, or what binds it."""
    again = shell.kept is not None and shell.kept.told is not None
    if shell.adrift:
        return _say(to_reader("promise.again-late" if again else "promise.adrift"))
    made = shell.now if shell.kept is None else shell.kept.promise
    if made is None:
        return _why_none(dates.book, shell.undated)
    why = _said(dates.book, dates.today).why(made.bindings, shell.due)
    return f"{_say('promise.again-keeps')} {why}" if again else why


def when_view(dates: OrderDates) -> dict[str, Any]:
    """The order as one: from its first shell to its last, and what binds the last, puts any at risk, or stops any."""
    stopped = list(dict.fromkeys(here.words(why) for shell in dates.shells for why in shell.faults))
    when = _when(dates)
    return {**when, "stopped": _say("promise.stopped-some", of=" · ".join(stopped)) if stopped else None}


def _when(dates: OrderDates) -> dict[str, Any]:
    made = [(shell, shell.now if shell.kept is None else shell.kept.promised) for shell in dates.shells]
    dated = [(shell, promise) for shell, promise in made if promise is not None]
    if not dated or len(dated) < len(made):
        undated = [tool for shell, _ in made for tool in shell.undated]
        return {"range": None, "promised": False, "says": _why_none(dates.book, dict.fromkeys(undated))}
    last, promise = max(dated, key=lambda pair: pair[1].ready_by)
    return {
        "range": {"ready": min(p.ready for _, p in dated), "ready_by": promise.ready_by},
        "promised": all(shell.kept is not None for shell, _ in made),
        "says": _says(dates, next((shell for shell, _ in dated if _at_risk(dates, shell)), last)),
    }


def _at_risk(dates: OrderDates, shell: Shown) -> bool:
    """Of one that is still to come: what is finished is late no more."""
    return shell.adrift and dates.order.shells[shell.seat.place - 1].state not in (ShellState.READY, *ENDED)


def promise_view(book: Book, promise: Promise, due: Iterable[Due] = (), today: date | None = None) -> dict[str, Any]:
    labels = {stage.id: stage.label for stage in book.stages}
    return {
        "slot": promise.slot,
        **range_view(promise),
        "says": _said(book, today).why(promise.bindings, due),
        "bindings": [_binding(book, one) for one in promise.bindings],
        "steps": [
            {"stage": s.stage, "label": labels.get(s.stage, {}), "could": s.could, "start": s.start, "end": s.end}
            for s in promise.steps
        ],
    }


def _binding(book: Book, one: Binding) -> dict[str, Any]:
    plain = slots(one, "what", "of", "days", "until")
    return {"kind": one.kind.value, **plain, "says": _said(book).binding(one)}


def _said(book: Book, today: date | None = None) -> DatesSaid:
    return DatesSaid(book, here.language(), today=today)


def _why_none(book: Book, undated: Iterable[str], can: bool = True) -> str:
    """Nothing else is left, where it can be built and every tool has its day, but a day beyond the holidays known."""
    if not can:
        return _say("promise.cant")
    tools = ", ".join(map(_said(book).thing, undated))
    return _say("promise.undated", tools=tools) if tools else _say("promise.far")


def due_view(due: Due, said: Mapping[Key, Said] = _NOTHING) -> dict[str, Any]:
    gate = due.gate
    by_hand = said.get((gate.name, gate.of))
    return {
        "gate": gate.name,
        "of": gate.of,
        "before": gate.before,
        "day": gate.day,
        "opened": gate.opened,
        "dated": by_hand is not None or gate.opened or gate.name == "tools",
        "by": due.by,
        "said_by_name": by_hand and here.called(by_hand.by),
        "said_at": by_hand and by_hand.at,
    }


def _say(key: str, **slots: Any) -> str:
    return say(key, here.language(), **spoken(slots, here.language()))
