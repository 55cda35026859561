"""The three answers as panels that differ even in black and white, the gravest first.

Can't: hatched seal, heavy box, every cause. Once: a gate, a dashed box, one tick box for each thing to come through.
Can: a plain box; where not as the car had it, a bar at its side and what differs, was against will be.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer

from app.documents.contents import QuotationPaper, ShellLine
from app.documents.saying.voice import Voice
from app.documents.typesetting.lettering import (
    ANSWER,
    ANSWER_SMALL,
    CELL,
    HEAVY,
    RIGHT_STRONG,
    RULE,
    STRONG,
    THIN,
    marked,
    safe,
    strong,
    text,
)
from app.documents.typesetting.marks import Seal, TickBox
from app.documents.typesetting.ruled import Cell, Command, bare, boxed, ruled, under
from rules.answer import Verdict


def answer_panels(paper: QuotationPaper, shell: ShellLine, voice: Voice, width: float) -> list[Flowable]:
    """One panel for each verdict that holds; small where there is much to say, the days in it with several shells."""
    several = len(paper.shells) > 1
    small = several or paper.changes is not None or _rows(shell) > _MANY
    panels: list[Flowable] = []
    for verdict in shell.verdicts:
        rows = _ROWS[verdict](paper, shell, voice)
        headline = _headline(paper, shell, voice, verdict)
        days = _days(shell, voice) if several and verdict is shell.verdicts[0] else ""
        panels += [_panel(verdict, headline, days, rows, width, small), Spacer(0, (1 if small else 2) * mm)]
    return panels


def short_answers(
    paper: QuotationPaper, named: Sequence[tuple[str, ShellLine]], voice: Voice, width: float
) -> Flowable:
    """Every answer in a line or two: its seals, the shell's name, what can be said in one sentence, and its days."""
    rows: list[list[Cell]] = []
    commands: list[Command] = []
    for name, shell in named:
        for verdict in shell.verdicts:
            first = verdict is shell.verdicts[0]
            said = text(_shortly(paper, shell, voice, verdict))
            beside = text(_days(shell, voice), RIGHT_STRONG) if first else ""
            rows.append([Seal(verdict, 5.4 * mm), (text(name, STRONG), said) if first else said, beside])
        commands.append(under(len(rows) - 1))
    middle = ("VALIGN", (0, 0), (-1, -1), "MIDDLE")
    return ruled(rows, [9 * mm, width - 51 * mm, 42 * mm], boxed(), *commands, middle)


def _shortly(paper: QuotationPaper, shell: ShellLine, voice: Voice, verdict: Verdict) -> str:
    """The headline, with the rules that it hangs on."""
    depends = shell.depends
    rules = {Verdict.ONCE: (*depends.parts, *depends.approvals), Verdict.CANT: chain.from_iterable(shell.causes)}
    hangs = [f"{rule} {_named(voice, rule)}".strip() for rule in dict.fromkeys(rules.get(verdict, ()))]
    headline = _headline(paper, shell, voice, verdict)
    return " ".join((headline, "; ".join(hangs))).strip() + ("." if hangs else "")


def _named(voice: Voice, rule: str) -> str:
    """A rule's short name; nothing where the book gives none."""
    entry = next((known for known in voice.book.rules if known.id == rule), None)
    words = entry and (entry.part or entry.title)
    return voice.words(words) if words else ""


#: More rows than this make the panels of a single shell small too, so that page one holds what it must.
_MANY = 6


def _rows(shell: ShellLine) -> int:
    """How many rows its panels have beneath their headlines."""
    depends = shell.depends
    return len(depends.parts) + len(depends.approvals) + len(shell.differences) + sum(map(len, shell.causes))


def _days(shell: ShellLine, voice: Voice) -> str:
    if shell.stock is not None:
        return voice.say("stock.short", name=shell.stock.name)
    days = shell.days
    return voice.say("date.short", earliest=days.earliest, latest=days.latest) if days else ""


def stands_on_donor(paper: QuotationPaper) -> bool:
    """Whether the shell is compared with the customer's own car rather than with its ordered series."""
    return paper.donor.established and paper.donor.series is not None


def _headline(paper: QuotationPaper, shell: ShellLine, voice: Voice, verdict: Verdict) -> str:
    key = f"answer.{verdict.value}"
    if verdict is not shell.verdicts[0]:
        key += "-then"
    if verdict is Verdict.AS_HAD and shell.open_questions:
        return voice.say("answer.so-far")
    if verdict in (Verdict.AS_HAD, Verdict.NOT_AS_HAD) and not stands_on_donor(paper):
        if not voice.ordered_series(shell):
            return voice.say("answer.so-far")
        return voice.say(f"{key}-series", series=voice.ordered_series(shell))
    return voice.say(key)


def _cant(_: QuotationPaper, shell: ShellLine, voice: Voice) -> list[tuple[Cell, Cell]]:
    """Every cause, and what to do next: a refusal is never without."""
    causes = [
        (
            text(voice.say("answer.cause", index=index), STRONG),
            tuple(marked(f"{strong(rule)}&nbsp; {safe(voice.reason(rule))}") for rule in cause),
        )
        for index, cause in enumerate(shell.causes, start=1)
    ]
    return [*causes, (text(voice.say("answer.next"), STRONG), text(voice.say("answer.next-step")))]


def _once(_: QuotationPaper, shell: ShellLine, voice: Voice) -> list[tuple[Cell, Cell]]:
    parts = ((rule, voice.say("answer.part", part=part_name(voice, rule))) for rule in shell.depends.parts)
    approvals = ((rule, _approval(shell, voice, rule)) for rule in shell.depends.approvals)
    through = {one.rule for one in shell.approved}
    rows = (*parts, *approvals)
    return [(_ticked(rule, through=rule in through), text(sentence, CELL)) for rule, sentence in rows]


def _approval(shell: ShellLine, voice: Voice, rule: str) -> str:
    """What the manager must say yes to, or that he has, when and why."""
    given = next((one for one in shell.approved if one.rule == rule), None)
    if given is None:
        return voice.say("answer.approval", reason=voice.reason(rule))
    day = voice.figures.day(given.day)
    return voice.say("answer.approved", day=day, by=given.by, why=given.reason, reason=voice.reason(rule))


def _not_as_had(paper: QuotationPaper, shell: ShellLine, voice: Voice) -> list[tuple[Cell, Cell]]:
    if not shell.differences:
        return [(text(""), text(voice.say("answer.differs-elsewhere")))]
    return [
        (
            text(voice.option(row.option), STRONG),
            text(_difference(paper, voice, row.option, row.donor, row.ordered)),
        )
        for row in shell.differences
    ]


def _difference(paper: QuotationPaper, voice: Voice, option: str, donor: str, ordered: str) -> str:
    key = "answer.difference" if stands_on_donor(paper) else "answer.difference-series"
    return voice.say(key, ordered=voice.choice(option, ordered), donor=voice.choice(option, donor))


def _as_had(paper: QuotationPaper, shell: ShellLine, voice: Voice) -> list[tuple[Cell, Cell]]:
    return []


def _ticked(rule: str, *, through: bool = False) -> Flowable:
    lower = ("TOPPADDING", (0, 0), (0, 0), 0.4 * mm)
    return ruled([[TickBox(through=through), text(rule, STRONG)]], [5.4 * mm, 16 * mm], *bare(), lower)


def part_name(voice: Voice, rule: str) -> str:
    """What the customer sends; the rule's title, else its id, where the book names no part."""
    entry = voice.book.rule(rule)
    return voice.words(entry.part or entry.title) if entry.part or entry.title else rule


def part_title(voice: Voice, rule: str) -> str:
    """The same as a heading or a row begins with it."""
    name = part_name(voice, rule)
    return f"{name[:1].upper()}{name[1:]}"


def _panel(
    verdict: Verdict, headline: str, days: str, rows: Sequence[tuple[Cell, Cell]], width: float, small: bool
) -> Flowable:
    seal = (11 if small else 18) * mm
    label = (42 if verdict is Verdict.NOT_AS_HAD else 24) * mm
    right = 42 * mm if days else 0.1
    look, air = (ANSWER_SMALL, 0.7 * mm) if small else (ANSWER, 1.6 * mm)
    beside = text(days, RIGHT_STRONG) if days else ""
    head: list[Cell] = [Seal(verdict, seal - 4 * mm), text(headline, look), "", beside]
    body: list[list[Cell]] = [["", label_cell, sentence, ""] for label_cell, sentence in rows]
    return ruled(
        [head, *body],
        [seal, label, width - seal - label - right, right],
        ("SPAN", (1, 0), (2, 0)),
        *(("SPAN", (2, row), (3, row)) for row in range(1, len(body) + 1)),
        ("VALIGN", (0, 0), (-1, 0), "MIDDLE"),
        ("TOPPADDING", (0, 0), (-1, 0), air),
        ("BOTTOMPADDING", (0, 0), (-1, 0), air),
        ("TOPPADDING", (0, 1), (-1, -1), 0.1 * mm),
        ("BOTTOMPADDING", (0, -1), (-1, -1), air),
        ("LEFTPADDING", (0, 0), (0, -1), 2 * mm),
        *_BOXES[verdict],
    )


_ROWS = {Verdict.CANT: _cant, Verdict.ONCE: _once, Verdict.NOT_AS_HAD: _not_as_had, Verdict.AS_HAD: _as_had}

_ALL = (0, 0), (-1, -1)
_BOXES: dict[Verdict, tuple[Command, ...]] = {
    Verdict.CANT: (("BOX", *_ALL, 2.4, RULE),),
    Verdict.ONCE: (("BOX", *_ALL, HEAVY, RULE, 0, (4, 2.4)),),
    Verdict.NOT_AS_HAD: (("BOX", *_ALL, THIN, RULE), ("LINEBEFORE", (0, 0), (0, -1), 4.5, RULE)),
    Verdict.AS_HAD: (("BOX", *_ALL, THIN, RULE),),
}
