"""The specification in plain words: what is quoted, how each answer came about, and what differs from the donor car."""

from __future__ import annotations

from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, Paragraph, Spacer

from app.documents.answers import stands_on_donor
from app.documents.contents import QuotationPaper, Sheet, ShellLine
from app.documents.drawing import Arrangement, Standing, shell_drawing
from app.documents.drawing_flowable import DrawnShell
from app.documents.lettering import (
    CELL,
    FINE,
    OPENING,
    REASON,
    ROW,
    ROW_STRONG,
    STRONG,
    THIN,
    TINT,
    caption,
    safe,
    strong,
    text,
)
from app.documents.marks import Came
from app.documents.quotation_front import shell_name
from app.documents.ruled import Cell, Command, headed, ruled, shares, under
from app.documents.stationery import inner_width
from app.documents.voice import Voice
from rules.answer import State, Verdict
from rules.model import Option

#: A specification is not begun on less room than this: in effect each has a sheet of its own.
_LEAST = 225 * mm
#: How much of the width the drawing takes: less on the shorter sheet, so that the table still fits below it.
_SHARES = {Sheet.A4: 1.0, Sheet.LETTER: 0.84}


def specifications(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """Every line's specification, then the changes since the last revision."""
    width = inner_width(paper.sheet)
    story: list[Flowable] = []
    for index in range(len(paper.shells)):
        story += _specification(paper, index, voice, width)
    return [*story, *_changes(paper, voice, width)]


def _specification(paper: QuotationPaper, index: int, voice: Voice, width: float) -> list[Flowable]:
    head = voice.say("specification.heading")
    return [
        CondPageBreak(_LEAST),
        Paragraph(safe(f"{head}: {shell_name(paper, index, voice)}"), OPENING),
        *_drawn(paper, paper.shells[index], voice, width),
        Spacer(0, 1.4 * mm),
        _table(paper, paper.shells[index], voice, width),
        Spacer(0, 0.6 * mm),
        text(voice.say("specification.key"), FINE),
        *_differences(paper, paper.shells[index], voice),
    ]


def _drawn(paper: QuotationPaper, shell: ShellLine, voice: Voice, width: float) -> list[Flowable]:
    standing = Standing(shell.settled, shell.standing, shell.bites)
    drawing = shell_drawing(paper.book, standing, voice.language, Arrangement.ABREAST)
    if drawing is None:
        return []
    return [DrawnShell(drawing, width * _SHARES[paper.sheet]), text(voice.say("drawing.key"), FINE)]


def _table(paper: QuotationPaper, shell: ShellLine, voice: Voice, width: float) -> Flowable:
    donor = "specification.donor" if stands_on_donor(paper) else "specification.donor-series"
    keys = ("specification.option", "specification.ordered", "specification.standing", donor)
    rows: list[list[Cell]] = [[caption(voice.say(key)) for key in keys]]
    commands: list[Command] = [*headed()]
    for group in paper.book.groups:
        options = [option for option in paper.book.options if option.group == group.id]
        commands += _group_rules(len(rows))
        rows.append([Paragraph(strong(voice.words(group.label)), ROW), "", "", ""])
        rows += [_row(paper, shell, option, voice) for option in options]
    commands += [("LINEBELOW", (0, 1), (-1, -2), 0.25, TINT), under(-1, THIN), ("NOSPLIT", (0, -4), (-1, -1))]
    return ruled(
        rows,
        shares(width, 44, 66, 26, 34),
        *commands,
        ("TOPPADDING", (0, 1), (-1, -1), 0.25 * mm),
        ("BOTTOMPADDING", (0, 1), (-1, -1), 0.4 * mm),
        heads=1,
    )


def _group_rules(row: int) -> list[Command]:
    return [
        ("BACKGROUND", (0, row), (-1, row), TINT),
        ("SPAN", (0, row), (-1, row)),
        ("NOSPLIT", (0, row), (0, row + 1)),
    ]


def _row(paper: QuotationPaper, shell: ShellLine, option: Option, voice: Voice) -> list[Cell]:
    label = text(voice.words(option.label), ROW)
    settled = shell.settled.get(option.id)
    if settled is None:
        still_open = text(voice.say("specification.still-open"), ROW_STRONG)
        return [label, still_open, text(voice.say("specification.open"), ROW), ""]
    state = shell.standing.get(option.id, State.CHOSEN)
    look = ROW if state is State.USUAL else ROW_STRONG
    ordered = [text(voice.choice(option.id, settled), look), *_why(shell, option, voice)]
    return [label, tuple(ordered), Came(state, voice.say(f"specification.{state.value}")), _donor(shell, option, voice)]


def _why(shell: ShellLine, option: Option, voice: Voice) -> list[Flowable]:
    if shell.standing.get(option.id) is not State.FORCED:
        return []
    rules = shell.forced_by.get(option.id, ())
    return [text(voice.say("specification.why", rule=rule, reason=voice.reason(rule)), REASON) for rule in rules]


def _donor(shell: ShellLine, option: Option, voice: Voice) -> Cell:
    donor = next((row.donor for row in shell.differences if row.option == option.id), None)
    return "" if donor is None else Paragraph("≠&nbsp; " + strong(voice.choice(option.id, donor)), ROW)


def _differences(paper: QuotationPaper, shell: ShellLine, voice: Voice) -> list[Flowable]:
    if shell.differences or Verdict.CANT in shell.verdicts:
        return []
    key = "specification.differences" if stands_on_donor(paper) else "specification.differences-series"
    head = voice.say(key, series=voice.ordered_series(shell))
    return [Paragraph(f"{strong(head)}: {safe(voice.say('specification.no-differences'))}", CELL)]


def _changes(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    if not paper.changes:
        return []
    keys = ("changes.option", "changes.before", "changes.after")
    rows: list[list[Cell]] = [[caption(voice.say(key)) for key in keys]]
    for change in paper.changes:
        place = f"{change.shell}: " if len(paper.shells) > 1 else ""
        before, after = (_side(voice, change.option, side) for side in (change.before, change.after))
        rows.append([text(place + voice.option(change.option)), text(before), text(after, STRONG)])
    head = Paragraph(safe(voice.say("changes.heading", revision=paper.superseded)), OPENING)
    return [CondPageBreak(35 * mm), head, ruled(rows, shares(width, 50, 60, 60), *headed(), under(-1, THIN), heads=1)]


def _side(voice: Voice, option: str, choice: str | None) -> str:
    return voice.say("changes.nothing") if choice is None else voice.choice(option, choice)
