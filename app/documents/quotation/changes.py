"""What is otherwise than in the last revision that left the house, for page one. It compares nothing itself."""

from __future__ import annotations

from collections.abc import Iterator

from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, KeepTogether

from app.documents.contents import QuotationPaper
from app.documents.saying.voice import Voice
from app.documents.shared.answers import part_name, part_title
from app.documents.typesetting.lettering import CELL, SMALL, STRONG, THIN, caption, heading, opening, text
from app.documents.typesetting.ruled import Cell, between, dense, headed, ruled, shares, under
from app.documents.typesetting.stationery import inner_width
from app.domain.quotations.changes import AnswerChange, CaseSum, Days, LineChange, Moved, Sums
from app.domain.quotations.quotation import DeliveryPlace
from rules.answer import Depends

#: What changed, how it was, how it is now.
Row = tuple[str, str, str]


def change_rows(paper: QuotationPaper, voice: Voice) -> list[Row]:
    """What it comes to first (price, days, what is needed), then what was done to make it so."""
    if paper.changes is None:
        return []
    made = paper.changes
    return [
        *_sums(paper, made.sums, voice),
        *_ready(made.ready, voice),
        *_needed(made.come, made.gone, voice),
        *(row for line in made.lines for row in _line(paper, line, voice)),
        *((voice.extra_label(e.extra), _count(e.before, voice), _count(e.after, voice)) for e in made.extras),
        *_rest(paper, voice),
    ]


#: As many rows of a longer list stand on page one before the total; the others end it, or run over.
_FIRST = 4
#: A list up to this long stands there whole.
_WHOLE = 8


def changes(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    """The list for page one, or that nothing changed; of a long one its first rows. Nothing on a first revision."""
    if paper.changes is None:
        return []
    rows = change_rows(paper, voice)
    head = heading(voice.say("changes.heading", revision=paper.changes.against))
    if not rows:
        return [head, text(voice.say("changes.none"))]
    early = rows if len(rows) <= _WHOLE else rows[:_FIRST]
    rest = len(rows) - len(early)
    more = [text(voice.say("changes.more", count=rest, revision=paper.changes.against), SMALL)] if rest else []
    return [KeepTogether([head, changes_table(early, voice, width), *more])]


def further_changes(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """The rows of a long list that page one left out."""
    rows = change_rows(paper, voice)
    if paper.changes is None or len(rows) <= _WHOLE:
        return []
    head = opening(voice.say("changes.further", revision=paper.changes.against))
    return [CondPageBreak(30 * mm), head, changes_table(rows[_FIRST:], voice, inner_width(paper.sheet))]


def changes_table(rows: list[Row], voice: Voice, width: float) -> Flowable:
    """What changed, how it was, how it is now."""
    keys = ("changes.what", "changes.before", "changes.after")
    cells: list[list[Cell]] = [[caption(voice.say(key)) for key in keys]]
    cells += [[text(what), text(before, CELL), text(after, STRONG)] for what, before, after in rows]
    return ruled(cells, shares(width, 62, 54, 54), *headed(), *dense(), between(1), under(-1, THIN), heads=1)


def _sums(paper: QuotationPaper, moved: Moved[Sums | None], voice: Voice) -> Iterator[Row]:
    if moved.stayed or not paper.prices_shown:
        return
    before, after = ({case.kind: case for case in sums.cases} if sums else {} for sums in (moved.before, moved.after))
    for kind in dict.fromkeys((*after, *before)):
        label = voice.say("total.with-tax", currency=paper.currency)
        if len(after) > 1 or len(before) > 1:
            label += f" ({voice.say(f'changes.case-{kind}')})"
        sides = (_sum(sums.get(kind), voice) for sums in (before, after))
        yield (label, *sides)  # type: ignore[misc]  # two sides


def _sum(case: CaseSum | None, voice: Voice) -> str:
    return voice.say("changes.no-total") if case is None else voice.figures.money(case.with_tax)


def _ready(moved: Moved[Days | None], voice: Voice) -> Iterator[Row]:
    if not moved.stayed:
        yield voice.say("changes.ready"), _days(moved.before, voice), _days(moved.after, voice)


def _days(days: Days | None, voice: Voice) -> str:
    if days is None:
        return voice.say("changes.no-date")
    return voice.say("date.short", earliest=days.from_days, latest=days.to_days)


def _needed(come: Depends, gone: Depends, voice: Voice) -> Iterator[Row]:
    """Customer's parts and approvals that are newly needed or fall away, and tools."""
    needed, away, nothing = (voice.say(f"changes.{key}") for key in ("needed", "falls-away", "not-needed"))
    for rule in (*come.parts, *come.approvals):
        yield _rule(rule, voice), nothing, needed
    for rule in (*gone.parts, *gone.approvals):
        yield _rule(rule, voice), needed, away
    for tool in come.tools:
        yield voice.tool(tool), voice.say("changes.tool-free"), voice.say("changes.tool-down")
    for tool in gone.tools:
        yield voice.tool(tool), voice.say("changes.tool-down"), voice.say("changes.tool-free")


def _rule(rule: str, voice: Voice) -> str:
    known = any(entry.id == rule for entry in voice.book.rules)
    name = part_name(voice, rule) if known else rule
    return rule if name == rule else f"{rule} {part_title(voice, rule)}"


def _line(paper: QuotationPaper, line: LineChange, voice: Voice) -> Iterator[Row]:
    place = _place(paper, line, voice)
    if line.came or line.went:
        what = place or voice.say("changes.shell", index=line.number.after or line.number.before)
        yield what, _count(line.quantity.before, voice), _count(line.quantity.after, voice)
        return
    if not line.quantity.stayed:
        quantity = line.quantity
        yield _at(place, voice.say("changes.quantity")), str(quantity.before), str(quantity.after)
    for answer in line.answers:
        yield (
            _at(place, _option(answer, voice)),
            _choice(answer, answer.before, voice),
            _choice(answer, answer.after, voice),
        )


def _place(paper: QuotationPaper, line: LineChange, voice: Voice) -> str:
    """Which shell, where there is more than one."""
    moved = line.came or line.went or line.number.after != line.number.before
    index = line.number.after or line.number.before
    return voice.say("changes.shell", index=index) if len(paper.shells) > 1 or moved else ""


def _at(place: str, what: str) -> str:
    return f"{place}: {what}" if place else what


def _option(answer: AnswerChange, voice: Voice) -> str:
    known = any(option.id == answer.option for option in voice.book.options)
    return voice.option(answer.option) if known else answer.option


def _choice(answer: AnswerChange, choice: str | None, voice: Voice) -> str:
    """In words; as an older book wrote it where this one has it no longer."""
    if choice is None:
        return voice.say("changes.nothing")
    choices = (c.id for option in voice.book.options if option.id == answer.option for c in option.choices)
    return voice.choice(answer.option, choice) if choice in choices else choice


def _count(quantity: int, voice: Voice) -> str:
    return f"{quantity} ×" if quantity else voice.say("changes.nothing")


def _rest(paper: QuotationPaper, voice: Voice) -> Iterator[Row]:
    made = paper.changes
    if made is None:
        return
    nothing = voice.say("changes.nothing")
    if not made.price_list.stayed:
        yield voice.say("changes.list"), made.price_list.before, made.price_list.after
    if not made.place.stayed:
        yield voice.say("changes.place"), _where(made.place.before, voice), _where(made.place.after, voice)
    if not made.donor.stayed:
        yield voice.say("donor.heading"), made.donor.before or nothing, made.donor.after or nothing
    if not made.note.stayed:
        yield voice.say("close.note"), *(voice.say("changes.said") if side else nothing
                                         for side in (made.note.before, made.note.after))  # type: ignore[misc]  # fmt: skip


def _where(place: DeliveryPlace, voice: Voice) -> str:
    country = voice.figures.country(place.country) if place.country else ""
    return ", ".join(part for part in (place.region, country, place.term) if part) or voice.say("changes.nothing")
