"""Page one: who, which car, the answer, the total, the date range, and what the customer must send."""

from __future__ import annotations

from collections.abc import Hashable
from functools import partial

from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, PageBreak, Spacer

from app.documents.alike import Places, alike, shells_name
from app.documents.answers import answer_panels, rows_of, short_answers
from app.documents.contents import QuotationPaper, ShellLine
from app.documents.letterhead import letterhead, parties
from app.documents.lettering import CELL, SMALL, STRONG, SUBHEADING, opening, text
from app.documents.quotation_changes import change_rows, changes
from app.documents.quotation_ready import dates, sending
from app.documents.quotation_total import total
from app.documents.stationery import inner_width
from app.documents.voice import Voice
from rules.answer import Verdict


def front(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """The story of page one."""
    width = inner_width(paper.sheet)
    groups = alike(paper.shells, partial(_answered, voice))
    short = _short(paper, groups)
    answers = _in_short(paper, groups, voice, width) if short else _answers(paper, groups, voice, width)
    return [
        letterhead(paper, _title(paper, voice), _standing(paper, voice), voice, width),
        Spacer(0, 2.5 * mm),
        parties(paper, voice, width),
        Spacer(0, 3 * mm),
        *_body(paper, answers, len(groups) <= _FEW, voice, width),
    ]


#: With more answers than this even their short form fills page one by itself: total and dates then go before them.
_FEW = 6
#: A change list longer than this ends page one, and runs over, rather than standing in the way of the rest.
_MANY_CHANGES = 8
#: What one answer may say beside a change list before it, too, is told in short.
_BRIEF = 3


def _short(paper: QuotationPaper, groups: list[Places]) -> bool:
    """Whether page one tells the answers in short, so that it also holds total, dates and what is to be sent."""
    return len(groups) > 1 or bool(paper.changes and any(rows_of(shell) > _BRIEF for shell in paper.shells))


def _body(paper: QuotationPaper, answers: list[Flowable], few: bool, voice: Voice, width: float) -> list[Flowable]:
    rows = change_rows(paper, voice)
    changed = changes(paper, rows, voice, width)
    early, late = (changed, []) if len(rows) <= _MANY_CHANGES else ([], changed)
    sums = [*total(paper, voice, width), *dates(paper, voice, width)]
    sent = sending(paper, voice, width)
    return [*answers, *early, *sums, *sent, *late] if few else [*early, *sums, *sent, *answers, *late]


def _title(paper: QuotationPaper, voice: Voice) -> str:
    return f"{voice.say('head.title')} {paper.number}"


def _standing(paper: QuotationPaper, voice: Voice) -> list[tuple[str, ParagraphStyle]]:
    figures = voice.figures
    key = "head.replaces" if paper.changes else "head.revision"
    superseded = paper.changes.against if paper.changes else ""
    lines = [
        (voice.say(key, revision=paper.revision, superseded=superseded), STRONG),
        (voice.say("head.dated", day=figures.day(paper.dated), author=paper.author), CELL),
    ]
    if not paper.issued or paper.valid_until is None:
        return [*lines, (voice.say("head.not-issued"), STRONG)]
    days = (paper.valid_until - paper.dated).days
    until = figures.day(paper.valid_until)
    return [
        *lines,
        (voice.say("head.valid", days=days, until=until, zone=voice.figures.zone(paper.book.calendar.zone)), CELL),
    ]


def _in_short(paper: QuotationPaper, groups: list[Places], voice: Voice, width: float) -> list[Flowable]:
    """A line or two for each answer; what it depends on and differs in follows at length."""
    named = [(shells_name(paper, places, voice), paper.shells[places[0]]) for places in groups]
    return [short_answers(paper, named, voice, width), text(voice.say("answer.in-short"), SMALL)]


def at_length(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """On the sheet that follows, what page one told in short; nothing where it told all."""
    groups = alike(paper.shells, partial(_answered, voice))
    if not _short(paper, groups):
        return []
    head = opening(voice.say("answer.at-length"))
    return [PageBreak(), head, *_answers(paper, groups, voice, inner_width(paper.sheet))]


def _answers(paper: QuotationPaper, groups: list[Places], voice: Voice, width: float) -> list[Flowable]:
    if not groups:
        return [text(voice.say("answer.none"), STRONG)]
    story: list[Flowable] = []
    for places in groups:
        shell = paper.shells[places[0]]
        head = text(shells_name(paper, places, voice), SUBHEADING if len(paper.shells) > 1 else STRONG)
        panels = answer_panels(paper, shell, voice, width)
        story += [KeepTogether([head, Spacer(0, 0.8 * mm), *panels]), *_still_open(shell, voice)]
    return story


def _answered(voice: Voice, shell: ShellLine) -> Hashable:
    """All that is said of a line's answer."""
    said = (shell.verdicts, shell.depends, shell.causes, shell.differences, shell.days, shell.open_questions)
    return voice.shell(shell), shell.quantity, said


def _still_open(shell: ShellLine, voice: Voice) -> list[Flowable]:
    if not shell.open_questions or Verdict.CANT in shell.verdicts:
        return []
    options = ", ".join(voice.option(option) for option in shell.open_questions)
    return [text(voice.say("answer.open", options=options), STRONG)]
