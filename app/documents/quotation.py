"""The quotation as a PDF. It lays out what `contents.QuotationPaper` carries and decides nothing."""

from __future__ import annotations

from pathlib import Path

from reportlab.platypus import Flowable

from app.documents import fonts
from app.documents.contents import QuotationPaper
from app.documents.quotation_changes import further_changes
from app.documents.quotation_close import closing, terms
from app.documents.quotation_front import at_length, front
from app.documents.quotation_prices import prices
from app.documents.quotation_specification import specifications
from app.documents.stationery import Field, Stationery, fits_one_sheet, print_sheets
from app.documents.voice import Voice, voice_of

__all__ = ["QuotationPaper", "quotation_pdf"]


def quotation_pdf(paper: QuotationPaper, font_folder: Path = fonts.FOLDER) -> bytes:
    """The paper as PDF bytes, identical for identical input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    voice = voice_of(paper)
    return print_sheets(_stationery(paper, voice), _story(paper, voice))


def _story(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """The terms fill page one where there is room for all of them, else they stand behind the prices."""
    first, terms_ = front(paper, voice), terms(paper, voice)
    early = fits_one_sheet([*first, *terms_], paper.sheet)
    middle = [
        *at_length(paper, voice),
        *further_changes(paper, voice),
        *specifications(paper, voice),
        *prices(paper, voice),
    ]
    return [*first, *(terms_ if early else []), *middle, *([] if early else terms_), *closing(paper, voice)]


def _stationery(paper: QuotationPaper, voice: Voice) -> Stationery:
    return Stationery(
        sheet=paper.sheet,
        title=voice.say("head.document-title", number=paper.number, revision=paper.revision),
        author=paper.firm.name,
        subject=voice.say("head.subject", firm=paper.firm.name, customer=paper.customer.name),
        language=paper.locale.replace("_", "-"),
        fields=_title_block(paper, voice),
        page_caption=voice.say("block.sheet"),
        pages=voice.say("block.pages", page="{page}", pages="{pages}"),
        across="" if paper.issued else voice.say("block.across"),
    )


def _title_block(paper: QuotationPaper, voice: Voice) -> tuple[Field, ...]:
    until = voice.figures.short_day(paper.valid_until) if paper.valid_until else voice.say("block.draft")
    return (
        Field(voice.say("block.from"), paper.firm.name, 0.2),
        Field(voice.say("block.paper"), voice.say("head.title"), 0.11, strong=True),
        Field(voice.say("block.number"), f"{paper.number} · {paper.revision}", 0.21, strong=True),
        Field(voice.say("block.dated"), voice.figures.short_day(paper.dated), 0.12),
        Field(voice.say("block.valid"), until, 0.14),
        Field(voice.say("block.book"), f"{paper.book.number} · {paper.tool_state}", 0.14),
    )
