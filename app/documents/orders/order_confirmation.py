"""The order confirmation as a PDF: what has changed first, then slot, dates, deposit, and until when what may change.

After that the specification as it was frozen, with its prices. It lays out what it is handed and decides nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from itertools import chain
from pathlib import Path

from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, PageBreak, Spacer

from app.documents.contents import QuotationPaper
from app.documents.quotation.changes import change_rows, changes_table
from app.documents.quotation.close import cautions
from app.documents.quotation.keep import keeping
from app.documents.quotation.prices import prices
from app.documents.quotation.specification import specifications
from app.documents.saying.voice import Voice, voice_of
from app.documents.shared.answers import part_name
from app.documents.shared.letterhead import letterhead, look_of
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import CELL, ROW, ROW_STRONG, SMALL, STRONG, THIN, caption, heading, text
from app.documents.typesetting.marks import Stamp
from app.documents.typesetting.ruled import Cell, between, dense, headed, ruled, shares, under
from app.documents.typesetting.stationery import Field, Stationery, best_arranged, inner_width, print_sheets
from app.domain.orders.confirming import Fixed, PartDue, ShellFixed
from rules.model import DESPATCHED, ORDERED, Allowed, LateChange
from rules.workshop.late import taken_at


@dataclass(frozen=True, slots=True)
class _Setting:
    """How what may still change is set: in which letters, and whether it begins a sheet."""

    plain: ParagraphStyle = CELL
    strong: ParagraphStyle = STRONG
    parted: bool = False


#: Tried in this order until the front does not end on a sheet with a few lines.
_SETTINGS = (_Setting(), _Setting(ROW, ROW_STRONG), _Setting(parted=True))


@dataclass(frozen=True, slots=True)
class LinePolicy:
    """What may still change on the shells of a `line` (from 1), and the `points` that they come to, in order."""

    line: int
    changes: tuple[LateChange, ...]
    points: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OrderConfirmation:
    """`quotation`: the frozen revision, of which nothing else is printed than was issued. `order`: its number."""

    quotation: QuotationPaper
    order: str
    fixed: Fixed
    policies: tuple[LinePolicy, ...]


def order_confirmation_pdf(paper: OrderConfirmation, font_folder: Path = fonts.FOLDER) -> bytes:
    """As PDF bytes, the same for the same input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    voice = voice_of(paper.quotation)
    look = _look(paper, voice)
    front = best_arranged(look, (_front(paper, voice, setting) for setting in _SETTINGS))
    return print_sheets(look, [*front.story, *_rest(paper, voice)])


def _look(paper: OrderConfirmation, voice: Voice) -> Stationery:
    quotation = paper.quotation
    return look_of(
        quotation,
        voice,
        voice.say("confirmation.document-title", number=paper.order),
        Field(voice.say("block.from"), quotation.firm.name, 0.2),
        Field(voice.say("block.paper"), voice.say("confirmation.title"), 0.19, strong=True),
        Field(voice.say("confirmation.order"), paper.order, 0.17, strong=True),
        Field(voice.say("confirmation.follows"), f"{quotation.number} · {quotation.revision}", 0.2),
        Field(voice.say("block.dated"), voice.figures.short_day(paper.fixed.dated), 0.13),
    )


def _front(paper: OrderConfirmation, voice: Voice, setting: _Setting) -> list[Flowable]:
    quotation, width = paper.quotation, inner_width(paper.quotation.sheet)
    day = voice.figures.day(paper.fixed.dated)
    stamp = Stamp(voice.say("confirmation.stamp"), voice.figures.short_day(paper.fixed.dated), sure=True)
    standing = [
        (voice.say("confirmation.of", number=quotation.number, revision=quotation.revision), STRONG),
        (voice.say("confirmation.confirmed", day=day, author=paper.fixed.author), CELL),
    ]
    return [
        *letterhead(quotation, f"{voice.say('confirmation.title')} {paper.order}", standing, voice, width, stamp),
        Spacer(0, 2 * mm),
        *_changed(paper, voice, width),
        *_dates(paper, voice, width),
        *_deposit(paper, voice),
        *([PageBreak()] if setting.parted and paper.policies else []),
        *chain.from_iterable(_policy(paper, policy, setting, voice) for policy in paper.policies),
    ]


def _rest(paper: OrderConfirmation, voice: Voice) -> list[Flowable]:
    quotation = paper.quotation
    parts = (specifications(quotation, voice), prices(quotation, voice), keeping(quotation, voice))
    return [PageBreak(), *chain.from_iterable(parts), *cautions(quotation, voice)]


def _changed(paper: OrderConfirmation, voice: Voice, width: float) -> list[Flowable]:
    """All of them, and before anything else; that there are none is said too."""
    made, rows = paper.quotation.changes, change_rows(paper.quotation, voice)
    if made is None:
        return [heading(voice.say("confirmation.changes")), text(voice.say("confirmation.first"))]
    head = heading(voice.say("changes.heading", revision=made.against))
    return [head, changes_table(rows, voice, width) if rows else text(voice.say("confirmation.no-change"))]


def _dates(paper: OrderConfirmation, voice: Voice, width: float) -> list[Flowable]:
    keys = ("shell", "slot", "ready", "parts")
    rows: list[list[Cell]] = [[caption(voice.say(f"confirmation.{key}")) for key in keys]]
    rows += [
        [
            text(_shell_name(paper, shell, voice), CELL),
            text(_slot(shell, voice), STRONG),
            text(_ready(shell, voice), STRONG),
            tuple(text(line, CELL) for line in _parts(shell.parts, voice)),
        ]
        for shell in paper.fixed.shells
    ]
    table = ruled(rows, shares(width, 50, 34, 46, 46), *headed(), *dense(), between(1), under(-1, THIN), heads=1)
    return [CondPageBreak(30 * mm), heading(voice.say("confirmation.dates")), table]


def _shell_name(paper: OrderConfirmation, shell: ShellFixed, voice: Voice) -> str:
    name = voice.shell(paper.quotation.shells[shell.line - 1])
    return name if len(paper.fixed.shells) == 1 else f"{shell.place}. {name}"


def _slot(shell: ShellFixed, voice: Voice) -> str:
    return voice.say("confirmation.no-slot") if shell.slot is None else voice.figures.day(shell.slot)


def _ready(shell: ShellFixed, voice: Voice) -> str:
    if shell.ready is None or shell.ready_by is None:
        return voice.say("confirmation.no-date")
    return voice.say(
        "confirmation.range",
        ready=voice.figures.short_day(shell.ready),
        ready_by=voice.figures.short_day(shell.ready_by),
    )


def _parts(parts: tuple[PartDue, ...], voice: Voice) -> list[str]:
    return [_part(part, voice) for part in parts] or [voice.say("confirmation.no-parts")]


def _part(part: PartDue, voice: Voice) -> str:
    name = part_name(voice, part.rule)
    if part.by is None:
        stage = voice.stage(voice.book.rule(part.rule).needed_before)
        return voice.say("confirmation.part-stage", rule=part.rule, part=name, stage=stage)
    return voice.say("confirmation.part", rule=part.rule, part=name, day=voice.figures.day(part.by))


def _deposit(paper: OrderConfirmation, voice: Voice) -> list[Flowable]:
    money = voice.figures.money
    told = voice.say("confirmation.deposit", deposit=money(paper.fixed.deposit), received=money(paper.fixed.received))
    return [Spacer(0, 1.5 * mm), text(told, STRONG)]


def _policy(paper: OrderConfirmation, policy: LinePolicy, setting: _Setting, voice: Voice) -> list[Flowable]:
    """Until when what may change; with days, where all shells of the line come to each stage on the same ones."""
    if not policy.changes:
        return []
    shells = [shell for shell in paper.fixed.shells if shell.line == policy.line]
    keys, plain = ("change", "freely", "then"), setting.plain
    rows: list[list[Cell]] = [[caption(voice.say(f"confirmation.{key}")) for key in keys]]
    for change in policy.changes:
        first, *later = _spans(change, policy.points)
        rows.append([text(voice.words(change.label), plain), text(_span(first, shells, voice), setting.strong),
                     text("; ".join(_span(span, shells, voice) for span in later), plain)])  # fmt: skip
    table = ruled(
        rows,
        shares(inner_width(paper.quotation.sheet), 52, 56, 68),
        *headed(),
        *dense(),
        between(1),
        under(-1, THIN),
        heads=1,
    )
    return [
        CondPageBreak(40 * mm),
        heading(_policy_heading(paper, policy, voice)),
        text(voice.say("confirmation.policy"), SMALL),
        Spacer(0, 1 * mm),
        table,
        *(text(line, SMALL) for line in _stages(shells, voice)),
    ]


def _policy_heading(paper: OrderConfirmation, policy: LinePolicy, voice: Voice) -> str:
    if len(paper.policies) == 1:
        return voice.say("confirmation.freeze")
    name = voice.shell(paper.quotation.shells[policy.line - 1])
    return voice.say("confirmation.freeze-line", line=policy.line, name=name)


@dataclass(frozen=True, slots=True)
class _Span:
    """How a change is taken, and up to which point; None: from there to the end."""

    taken: str
    until: str | None


def _spans(change: LateChange, points: tuple[str, ...]) -> list[_Span]:
    come, spans = [ORDERED], list[_Span]()
    for point in (*points, DESPATCHED):
        before, after = taken_at(change, come), taken_at(change, (*come, point))
        if before is not after:
            spans.append(_Span(before.value, point))
        come.append(point)
    return [*spans, _Span(taken_at(change, come).value, None)]


def _span(span: _Span, shells: list[ShellFixed], voice: Voice) -> str:
    how = voice.say(f"confirmation.taken-{span.taken}")
    if span.until is None:
        return voice.say("confirmation.never" if span.taken == Allowed.NO.value else "confirmation.from-there", how=how)
    if span.until == DESPATCHED:
        return voice.say("confirmation.until-despatch", how=how)
    day = _day(span.until, shells)
    stage = voice.stage(span.until)
    if day is None:
        return voice.say("confirmation.until-stage", how=how, stage=stage)
    return voice.say("confirmation.until-day", how=how, stage=stage, day=voice.figures.day(day))


def _day(stage: str, shells: list[ShellFixed]) -> date | None:
    """On which all of them come into it; None where they come on several, or nobody knows."""
    days = {stay.start for shell in shells for stay in shell.stays if stay.stage == stage}
    return next(iter(days)) if len(days) == 1 and all(shell.stays for shell in shells) else None


def _stages(shells: list[ShellFixed], voice: Voice) -> Iterator[str]:
    """For several shells: when each comes into which stage."""
    if len(shells) < _SEVERAL:
        return
    for shell in shells:
        days = "; ".join(f"{voice.stage(stay.stage)} {voice.figures.short_day(stay.start)}" for stay in shell.stays)
        if days:
            yield voice.say("confirmation.comes", place=shell.place, days=days)


_SEVERAL = 2
