"""The quotation as a PDF. It lays out what `contents.QuotationPaper` carries and decides nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import chain
from pathlib import Path

from reportlab.platypus import Flowable, PageBreak

from app.documents.contents import QuotationPaper
from app.documents.quotation.changes import further_changes
from app.documents.quotation.close import cautions, closing, terms
from app.documents.quotation.front import at_length, front
from app.documents.quotation.keep import keeping
from app.documents.quotation.prices import prices
from app.documents.quotation.specification import specifications
from app.documents.saying.voice import Voice, voice_of
from app.documents.shared.letterhead import look_of
from app.documents.typesetting import fonts
from app.documents.typesetting.stationery import Field, Stationery, fits_one_sheet, print_best

__all__ = ["QuotationPaper", "quotation_pdf"]


def quotation_pdf(paper: QuotationPaper, font_folder: Path = fonts.FOLDER) -> bytes:
    """The paper as PDF bytes, identical for identical input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    voice = voice_of(paper)
    return print_best(_look(paper, voice), _stories(paper, voice))


@dataclass(frozen=True, slots=True)
class _Parts:
    """What every arrangement of one paper is made of: each part is set once."""

    front: list[Flowable]
    early: Mapping[str, list[Flowable]]
    middle: list[Flowable]
    closing: Callable[[bool], list[Flowable]]


def _parts(paper: QuotationPaper, voice: Voice) -> _Parts:
    warned = cautions(paper, voice)
    middle = (at_length, further_changes, specifications, prices, keeping)
    return _Parts(
        front(paper, voice),
        {"terms": terms(paper, voice), "cautions": warned},
        [*chain.from_iterable(part(paper, voice) for part in middle)],
        cache(lambda early: closing(paper, voice, [] if early else warned)),
    )


def _stories(paper: QuotationPaper, voice: Voice) -> Iterator[list[Flowable]]:
    """The same in several arrangements, the one that is wanted first; a later one mends a last sheet of a few lines.

    The terms fill page one where there is room for all of them, else they stand behind the prices. What page one holds
    of the cautions is not missing at the end; and where none of it spares the sheet, the terms go over to it.
    """
    parts = _parts(paper, voice)
    for early in _EARLY:
        if not early or fits_one_sheet(_page_one(parts, early), paper.sheet):
            yield _story(parts, early)
    yield _story(parts, frozenset(), over=True)


#: What goes to the room that is left on page one.
_EARLY = (frozenset(("terms",)), frozenset[str](), frozenset(("terms", "cautions")), frozenset(("cautions",)))


def _page_one(parts: _Parts, early: frozenset[str]) -> list[Flowable]:
    return [*parts.front, *chain.from_iterable(piece for name, piece in parts.early.items() if name in early)]


def _story(parts: _Parts, early: frozenset[str], over: bool = False) -> list[Flowable]:
    """`early`: what stands on page one; `over`: the terms begin the last sheet."""
    late = [] if "terms" in early else [*([PageBreak()] if over else []), *parts.early["terms"]]
    return [*_page_one(parts, early), *parts.middle, *late, *parts.closing("cautions" in early)]


def _look(paper: QuotationPaper, voice: Voice) -> Stationery:
    title = voice.say("head.document-title", number=paper.number, revision=paper.revision)
    until = voice.figures.short_day(paper.valid_until) if paper.valid_until else voice.say("block.draft")
    return look_of(
        paper,
        voice,
        title,
        Field(voice.say("block.from"), paper.firm.name, 0.2),
        Field(voice.say("block.paper"), voice.say("head.title"), 0.11, strong=True),
        Field(voice.say("block.number"), f"{paper.number} · {paper.revision}", 0.21, strong=True),
        Field(voice.say("block.dated"), voice.figures.short_day(paper.dated), 0.12),
        Field(voice.say("block.valid"), until, 0.14),
        Field(voice.say("block.book"), f"{paper.book.number} · {paper.tool_state}", 0.14),
    )
