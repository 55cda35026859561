"""Page one: who, which car, the answer, the total, the date range, and what the customer must send."""

from __future__ import annotations

from collections.abc import Hashable
from functools import partial

from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, PageBreak, Spacer

from app.documents.contents import QuotationPaper, ShellLine
from app.documents.quotation.changes import changes
from app.documents.quotation.ready import dates, sending
from app.documents.quotation.total import total
from app.documents.saying.voice import Voice
from app.documents.shared.alike import Places, alike, shells_name
from app.documents.shared.answers import answer_panels, short_answers
from app.documents.shared.letterhead import letterhead
from app.documents.typesetting.lettering import CELL, SMALL, STRONG, SUBHEADING, opening, text
from app.documents.typesetting.stationery import fits_one_sheet, inner_width
from rules.answer import Verdict


def front(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """The story of page one."""
    groups = _groups(paper, voice)
    answers = _in_short if in_short(paper, voice) else _answers
    width = inner_width(paper.sheet)
    return _page_one(paper, groups, answers(paper, groups, voice, width), voice)


def in_short(paper: QuotationPaper, voice: Voice) -> bool:
    """Whether page one tells the answers in short, since it would not hold total, dates and what is to be sent too."""
    groups = _groups(paper, voice)
    if not groups or (len(groups) == 1 and paper.changes is None):
        return False
    whole = _page_one(paper, groups, _answers(paper, groups, voice, inner_width(paper.sheet)), voice)
    return not fits_one_sheet(whole, paper.sheet)


def _groups(paper: QuotationPaper, voice: Voice) -> list[Places]:
    return alike(paper.shells, partial(_answered, voice))


def _page_one(paper: QuotationPaper, groups: list[Places], answers: list[Flowable], voice: Voice) -> list[Flowable]:
    width = inner_width(paper.sheet)
    return [
        *letterhead(paper, _title(paper, voice), _standing(paper, voice), voice, width),
        Spacer(0, 3 * mm),
        *_body(paper, answers, len(groups) <= _FEW, voice, width),
    ]


#: With more answers than this even their short form fills page one by itself: total and dates then go before them.
_FEW = 6


def _body(paper: QuotationPaper, answers: list[Flowable], few: bool, voice: Voice, width: float) -> list[Flowable]:
    changed = changes(paper, voice, width)
    rest = [*total(paper, voice, width), *dates(paper, voice, width), *sending(paper, voice, width)]
    return [*answers, *changed, *rest] if few else [*changed, *rest, *answers]


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
    if not in_short(paper, voice):
        return []
    answers = _answers(paper, _groups(paper, voice), voice, inner_width(paper.sheet))
    return [PageBreak(), opening(voice.say("answer.at-length")), *answers]


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
    said = (
        shell.verdicts,
        shell.depends,
        shell.causes,
        shell.differences,
        shell.days,
        shell.open_questions,
        shell.stock,
    )
    return voice.shell(shell), shell.quantity, said


def _still_open(shell: ShellLine, voice: Voice) -> list[Flowable]:
    if not shell.open_questions or Verdict.CANT in shell.verdicts:
        return []
    options = ", ".join(voice.option(option) for option in shell.open_questions)
    return [text(voice.say("answer.open", options=options), STRONG)]
