"""What a draft would do if it were published now: to what is out, to the shells that are known, and to all of before.

It looks at every draft, quotation and order one by one, which takes a while: a thread of its own does it, and says how
far it has come. What it found is kept with the draft's very text; changing the text, publishing another book or saying
a tool down makes it old.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from threading import Lock, Thread
from typing import Any
from weakref import WeakKeyDictionary

from app.domain.asking.actor import Actor
from app.domain.books.book_draft import BookDraft
from app.domain.books.rehearsal import HeadlineMoved, KnownHeld, Rehearsal, Stored, TouchedRevision
from app.domain.books.tool_state import ToolStates
from app.domain.errors import BookRefused, Fault, NotRehearsed, RehearsalFailed
from app.domain.quotations.then_and_now import ThenAndNow
from app.services.answering.checking import blank_faults, refuse
from app.services.books import compiling, drafting, proving, publishing
from app.services.books.drafting import Edit
from app.services.books.publishing import Regions, anywhere
from app.services.books.tools import tool_states
from app.services.quotations.rechecking import Rechecked, recheck_by
from app.store import book_drafts as kept
from app.store import promises
from app.store.db import Store
from rules.engine.prepare import Prepared
from rules.engine.without_diagram import WithoutDiagram
from rules.model import Book
from rules.proof.known import Held, hold_known
from rules.proof.recheck import Rechecked as Recheck
from rules.specification import Donor

#: Specifications of before that are looked at, the last first.
STORED = 10_000


@dataclass(slots=True)
class Progress:
    """How many of all have been looked at. `failed`: it could not be brought to an end."""

    done: int = 0
    of: int = 0
    failed: bool = False


def draft_book(draft: BookDraft, regions: Regions = anywhere) -> Book:
    """The book that a draft says, under a number that no published book has. Raises BookRefused."""
    read = drafting.read(draft.text, regions)
    if read.book is None:
        raise BookRefused(read.mistakes)
    return replace(read.book, number=-int(draft.sha256[:12], 16))


def rehearsed(store: Store, draft: BookDraft, now: datetime) -> Rehearsal | None:
    """What was found of the very text, by the book in force and the tools as they stand; None: nothing yet."""
    against, tools = publishing.current_number(store, now), tool_states(store).number
    with store.reading() as db:
        return kept.rehearsal(db, draft.id, draft.sha256, against, tools)


def progress(store: Store, draft: BookDraft) -> Progress | None:
    """How far it has come; None: nobody is at it."""
    with _lock:
        return _jobs.setdefault(store, {}).get((draft.id, draft.sha256))


def rehearse(store: Store, actor: Actor, draft: BookDraft, now: datetime, regions: Regions = anywhere) -> Progress:
    """Begin, unless it is underway. Raises BookRefused while the draft has mistakes."""
    book = draft_book(draft, regions)
    with _lock:
        jobs = _jobs.setdefault(store, {})
        under_way = jobs.get((draft.id, draft.sha256))
        if under_way is not None and not under_way.failed:
            return under_way
        made = jobs[draft.id, draft.sha256] = Progress()
    work = (store, actor, draft, book, now, made)
    Thread(target=_work, args=work, name="rehearsal", daemon=True).start()
    return made


def publish(store: Store, edit: Edit, note: str, valid_from: datetime | None) -> BookDraft:
    """The draft as the next book, in force from `valid_from` or now.

    Raises NotRehearsed unless this very text was rehearsed against the book in force and the tools as they stand,
    RehearsalFailed where a known shell is answered otherwise or the book is unsound, BadInput, and as a change does.
    """
    refuse(_publish_faults(note, valid_from, edit.now))
    draft = drafting.seen(store, edit)
    book = draft_book(draft)
    found = rehearsed(store, draft, edit.now)
    if found is None:
        raise NotRehearsed(number=str(draft.id))
    unsound = not proving.proved_book(store, book).proof.sound
    if unsound or any(found.faults()):
        raise RehearsalFailed(number=str(draft.id), why="unsound" if unsound else "known")
    with store.writing():
        drafting.close_as(
            store,
            edit,
            lambda: publishing.publish_book(store, edit.actor, draft.text, edit.now, note=note, valid_from=valid_from),
        )
    return drafting.draft(store, draft.id)


def _publish_faults(note: str, valid_from: datetime | None, now: datetime) -> Iterator[Fault]:
    yield from blank_faults("note", note)
    if valid_from is not None and valid_from < now:
        yield Fault("valid_from", "in-the-past")


_jobs: WeakKeyDictionary[Store, dict[tuple[int, str], Progress]] = WeakKeyDictionary()
_lock = Lock()
#: One at a time: two would only take the processor from each other and from the readers.
_stage = Lock()


def _work(store: Store, actor: Actor, draft: BookDraft, book: Book, now: datetime, told: Progress) -> None:
    try:
        with _stage:
            found = look(store, actor, book, now, told)
        with store.writing() as db:
            kept.add_rehearsal(db, draft.id, draft.sha256, found, actor.name, now)
        with _lock:
            _jobs.setdefault(store, {}).pop((draft.id, draft.sha256), None)
    except Exception:
        told.failed = True
        raise
    finally:
        store.close()


def look(store: Store, actor: Actor, book: Book, now: datetime, told: Progress) -> Rehearsal:
    """All of it, here and now; `told` is kept up to date meanwhile."""
    with store.reading() as db:
        out, drafts = promises.out(db, now), promises.drafts(db)
        stored, tools = promises.stored(db, STORED), tool_states(store)
    told.of = len(out) + len(drafts) + 1
    touched = tuple(_touched(store, actor, (*drafts, *out), book, now, told))
    return Rehearsal(
        against=publishing.current_number(store, now),
        tool_state=tools.number,
        touched=touched,
        looked_at=len(out) + len(drafts),
        known=tuple(map(_known, hold_known(book, lambda donor: _ready(store, tools, book, donor)))),
        stored=_stored(store, tools, book, publishing.current_book(store, now), stored),
    )


def _touched(
    store: Store, actor: Actor, these: Iterable[promises.Promise], book: Book, now: datetime, told: Progress
) -> Iterator[TouchedRevision]:
    for one in these:
        found = recheck_by(store, actor, one.number, one.letter, book, now)
        told.done += 1
        if (found.found is None or found.found.moved) and not _so_already(store, actor, one, found, now):
            yield _row(one, found)


def _so_already(store: Store, actor: Actor, one: promises.Promise, found: Rechecked, now: datetime) -> bool:
    """Whether the book in force does the very same to it already: then it is no work of the draft's."""
    if found.then.book == publishing.current_number(store, now):
        return False
    return (
        recheck_by(store, actor, one.number, one.letter, publishing.current_book(store, now), now).found == found.found
    )


def _row(one: promises.Promise, found: Rechecked) -> TouchedRevision:
    held = found.found
    return TouchedRevision(
        number=one.number,
        letter=one.letter,
        standing=one.standing,
        customer=one.customer,
        shells=sum(line.quantity for line in one.lines),
        advice=found.advice,
        verdicts=() if held is None else tuple(_headlines(held)),
        causes=() if held is None else tuple(dict.fromkeys(c for line in held.lines for c in line.come)),
        answers=0 if held is None else sum(len(line.answers) for line in held.lines),
        comparable=held is not None,
        **_sums(held),
    )


def _headlines(held: ThenAndNow) -> Iterator[HeadlineMoved]:
    moved = (line for line in held.lines if not line.verdict.stayed)
    return (HeadlineMoved(line.line, line.verdict.before, line.verdict.after) for line in moved)


def _sums(held: ThenAndNow | None) -> Mapping[str, Any]:
    """What it comes to before tax, where both sides can be summed in one currency."""
    before, after = (None, None) if held is None else (held.sums.before, held.sums.after)
    both = before is not None and after is not None and before.currency == after.currency
    return {
        "currency": before.currency if before is not None and both else None,
        "before": before.cases[0].without_tax if before is not None and both else None,
        "after": after.cases[0].without_tax if after is not None and both else None,
    }


def _known(held: Held) -> KnownHeld:
    known = held.known
    because = min(held.because, key=lambda one: (len(one ^ known.because), sorted(one)), default=frozenset())
    return KnownHeld(known.id, held.wrong, held.answer, tuple(sorted(because)), held.price)


def _ready(store: Store, tools: ToolStates, book: Book, donor: Donor) -> Prepared | WithoutDiagram:
    return compiling.ready(store, book, tools.conditions_in(book), donor)


def _stored(store: Store, tools: ToolStates, new: Book, old: Book, stored: Iterable[promises.Stored]) -> Stored | None:
    """Of all that was ever quoted; None where either book is too large for a diagram."""
    counts: Counter[str] = Counter()
    checks: dict[Prepared, Recheck] = {}
    for one in stored:
        found = [_check(store, tools, book, one.donor, checks) for book in (old, new)]
        if None in found:
            return None
        was, now_ = (check.stands(one.made)[0] for check in found if check is not None)
        counts.update(("looked_at", "lost" if was and not now_ else "gained" if now_ and not was else "as_before"))
    return Stored(counts["looked_at"], counts["lost"], counts["gained"])


def _check(
    store: Store, tools: ToolStates, book: Book, donor: Donor, checks: dict[Prepared, Recheck]
) -> Recheck | None:
    """One for all donor cars that the book doesn't tell apart; None: the book has no diagram."""
    ready = _ready(store, tools, book, donor)
    if not isinstance(ready, Prepared):
        return None
    if ready not in checks:
        checks[ready] = Recheck(ready)
    return checks[ready]
