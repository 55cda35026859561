"""When it is ready and what the customer must send: the rest of page one. It counts no days."""

from __future__ import annotations

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, Spacer

from app.dates_said import DatesSaid
from app.documents.contents import Gate, QuotationPaper, ShellLine
from app.documents.quotation.stock import from_stock
from app.documents.saying.voice import Voice
from app.documents.shared.alike import numbers
from app.documents.shared.answers import part_title
from app.documents.typesetting.lettering import BODY, SMALL, STRONG, THIN, caption, heading, marked, safe, strong, text
from app.documents.typesetting.marks import TickBox
from app.documents.typesetting.ruled import Cell, between, headed, ruled, shares, under
from app.domain.quotations.quotation import Foreseen
from rules.answer import Verdict


def dates(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    head = heading(voice.say("date.heading"))
    if any(Verdict.CANT in shell.verdicts for shell in paper.shells):
        return [KeepTogether([head, text(voice.say("date.cant"), BODY)])]
    if _unfinished(paper):
        return [KeepTogether([head, text(voice.say("date.open"), BODY)])]
    gates = _gate_boxes(_gates(paper, voice), width)
    foreseen = _foreseen(paper)
    stock = [text(one, BODY) for one in from_stock(paper, voice)]
    if stock and not any(shell.stock is None for shell in paper.shells):
        return [KeepTogether([head, *stock, gates])]
    if not foreseen:
        return [KeepTogether([head, *stock, *_ranges(paper, voice), gates, text(voice.say("date.basis"), SMALL)])]
    basis = voice.say("date.slots", day=voice.figures.day(foreseen[0].on))
    days = _days(paper, foreseen, voice)
    return [KeepTogether([head, *stock, *days, *_ranges(paper, voice), gates, text(basis, SMALL)])]


def _foreseen(paper: QuotationPaper) -> list[Foreseen]:
    """Line by line; empty where one of them has no date."""
    found = [shell.foreseen for shell in paper.shells if shell.foreseen is not None]
    return found if len(found) == len(paper.shells) else []


def _days(paper: QuotationPaper, foreseen: list[Foreseen], voice: Voice) -> list[Flowable]:
    """The range and what binds; where the lines differ, each with its own."""
    said = DatesSaid(paper.book, voice.language, paper.locale, foreseen[0].on)
    made = [(place, one) for place, one in enumerate(foreseen) if paper.shells[place].stock is None]
    if len(set(foreseen)) == 1:
        range_ = voice.say("date.foreseen", **_range(foreseen[0], voice))
        return [text(range_, STRONG), text(_why(foreseen[0], said), BODY)]
    lines = [
        voice.say("date.foreseen-shell", shells=numbers([place]), why=_why(one, said), **_range(one, voice))
        for place, one in made
    ]
    return [text(line, BODY) for line in lines]


def _range(one: Foreseen, voice: Voice) -> dict[str, str]:
    weeks = (day.isocalendar().week for day in (one.ready, one.ready_by))
    days = {"earliest": voice.figures.day(one.ready), "latest": voice.figures.day(one.ready_by)}
    return days | dict(zip(("first", "last"), map(str, weeks), strict=True))


def _why(one: Foreseen, said: DatesSaid) -> str:
    """What costs most days, and by when the customer's part must have passed."""
    part = said.part(one.part, one.part_by) if one.part else ""
    if one.binds is None:
        return part or said.why(())
    return f"{said.binding(one.binds)} {part}".strip()


def _unfinished(paper: QuotationPaper) -> bool:
    return not paper.shells or any(shell.days is None or shell.open_questions for shell in paper.shells)


def _gate_boxes(sentences: list[str], width: float) -> Flowable:
    """The gates with a box each to tick, two abreast."""
    cells: list[list[Cell]] = [[TickBox(3 * mm), text(sentence)] for sentence in sentences]
    if len(cells) % 2:
        cells.append(["", ""])
    rows = [left + right for left, right in zip(cells[::2], cells[1::2], strict=True)]
    half = width / 2 - 6 * mm
    return ruled(rows, [6 * mm, half, 6 * mm, half], *_TIGHT)


_TIGHT = (("TOPPADDING", (0, 0), (-1, -1), 0.2 * mm), ("BOTTOMPADDING", (0, 0), (-1, -1), 0.3 * mm))


def _ranges(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    shells = [shell for shell in paper.shells if shell.stock is None]
    days = [shell.days for shell in shells if shell.days]
    first = voice.say("date.range", earliest=days[0].earliest, latest=days[0].latest)
    line = first if len(set(days)) == 1 else voice.say("date.ranges")
    additions = dict.fromkeys(name for shell in shells for name in _additions(shell, voice))
    story: list[Flowable] = [text(line, STRONG)]
    return [*story, text(voice.say("date.includes", additions="; ".join(additions)), SMALL)] if additions else story


def _additions(shell: ShellLine, voice: Voice) -> list[str]:
    by_id = {addition.id: addition for addition in voice.book.additions}
    return [voice.words(by_id[addition].label) for addition in (shell.days.additions if shell.days else ())]


def _gates(paper: QuotationPaper, voice: Voice) -> list[str]:
    sentences = [voice.say(f"date.{gate.value}") for gate in paper.gates if gate is not Gate.TOOLS]
    for down in paper.tools_down:
        key = "date.tool-until" if down.until else "date.tool-open"
        day = voice.figures.day(down.until) if down.until else ""
        sentences.append(voice.say(key, tool=voice.tool(down.tool), day=day))
    return sentences


def sending(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    if any(Verdict.CANT in shell.verdicts for shell in paper.shells):
        return []
    head = heading(voice.say("send.heading"))
    parts = _parts(paper)
    if not parts:
        return [KeepTogether([head, text(voice.say("send.open" if _unfinished(paper) else "send.none"), BODY)])]
    table = _parts_table(paper, parts, voice, width)
    consequence = text(voice.say("send.consequence"), SMALL)
    return [KeepTogether([head, table, Spacer(0, 1 * mm), consequence])]


def _parts(paper: QuotationPaper) -> dict[str, str]:
    """Rules of the parts needed → the stage before which each must have passed."""
    return {rule: (paper.book.rule(rule).needed_before or "") for shell in paper.shells for rule in shell.depends.parts}


def _parts_table(paper: QuotationPaper, parts: dict[str, str], voice: Voice, width: float) -> Flowable:
    keys = ("send.part", "send.reason", "send.needed")
    rows: list[list[Cell]] = [[caption(voice.say(key)) for key in keys]]
    for rule, stage in parts.items():
        name = f"{strong(rule)}&nbsp; {strong(part_title(voice, rule))}{_which(paper, rule, voice)}"
        rows.append([marked(name), text(voice.reason(rule)), text(voice.stage(stage), STRONG)])
    return ruled(rows, shares(width, 46, 88, 36), *headed(), between(1), under(-1, THIN), heads=1)


def _which(paper: QuotationPaper, rule: str, voice: Voice) -> str:
    if len(paper.shells) == 1:
        return ""
    shells = [place for place, shell in enumerate(paper.shells) if rule in shell.depends.parts]
    return " " + safe(voice.say("send.shells", shells=numbers(shells)))
