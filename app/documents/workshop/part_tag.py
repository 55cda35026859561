"""The tag of a customer's part, one to a sheet: two halves with the same number, for the part and for the parcel.

It lays out what `PartTags` carries, names no price and nobody but the firm, and decides nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from itertools import chain
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, HRFlowable, PageBreak, Spacer

from app.documents.contents import QuotationPaper
from app.documents.saying.voice import Voice, voice_of
from app.documents.shared.answers import part_title
from app.documents.shared.letterhead import look_of
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import CELL, FINE, HAIR, HEAVY, INK, SMALL, STRONG, caption, style, text
from app.documents.typesetting.marks import Code
from app.documents.typesetting.ruled import Cell, bare, between, boxed, padded, ruled, upright
from app.documents.typesetting.stationery import Field, Stationery, inner_width, print_sheets
from rules.donor.keep import Sent
from rules.model import Remark

_NUMBER = style("tag-number", 25, 30, fontName=STRONG.fontName)
_PART = style("tag-part", 15, 18, fontName=STRONG.fontName)
_NEEDED = style("tag-needed", 12, 15, fontName=STRONG.fontName)


@dataclass(frozen=True, slots=True)
class PartTag:
    """`number` of the tag; `needed` the last day on which it may pass, None while no slot is taken.

    `address`: what its code says, the way to the part's own page; empty on a draft.
    """

    number: str
    sent: Sent
    needed: date | None = None
    address: str = ""


@dataclass(frozen=True, slots=True)
class PartTags:
    """`order`: its number, empty while there is none; `cautions`: ids of the book's that hold; `printed`: today."""

    quotation: QuotationPaper
    tags: tuple[PartTag, ...]
    order: str
    cautions: tuple[str, ...]
    printed: date


def part_tags_pdf(tags: PartTags, font_folder: Path = fonts.FOLDER) -> bytes:
    """The tags as PDF bytes, a sheet each; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    voice = voice_of(tags.quotation)
    return print_sheets(_look(tags, voice), _story(tags, voice))


def _look(tags: PartTags, voice: Voice) -> Stationery:
    paper = tags.quotation
    title = voice.say("tag.document-title", number=tags.order or paper.number)
    return look_of(
        paper,
        voice,
        title,
        Field(voice.say("block.from"), paper.firm.name, 0.24),
        Field(voice.say("block.paper"), voice.say("tag.title"), 0.18, strong=True),
        Field(voice.say("tag.quotation"), f"{paper.number} · {paper.revision}", 0.24, strong=True),
        Field(voice.say("tag.printed"), voice.figures.short_day(tags.printed), 0.16),
        subject=title,
    )


def _story(tags: PartTags, voice: Voice) -> list[Flowable]:
    if not tags.tags:
        return [text(voice.say("tag.none"), STRONG)]
    sheets = [_sheet(tags, tag, voice) for tag in tags.tags]
    return [*sheets[0], *chain.from_iterable((PageBreak(), *sheet) for sheet in sheets[1:])]


def _sheet(tags: PartTags, tag: PartTag, voice: Voice) -> list[Flowable]:
    fold = HRFlowable(width="100%", thickness=HAIR, color=INK, dash=(3, 3), spaceBefore=3 * mm, spaceAfter=1 * mm)
    upper, lower = (_half(tags, tag, voice, key) for key in ("upper", "lower"))
    return [upper, fold, text(voice.say("tag.cut"), FINE), Spacer(0, 2.5 * mm), lower]


def _half(tags: PartTags, tag: PartTag, voice: Voice, key: str) -> Flowable:
    """Both halves say the same but for where they go: either alone leads back to the order."""
    paper, width = tags.quotation, inner_width(tags.quotation.sheet)
    draft = [] if paper.issued else [text(voice.say("tag.draft"), STRONG)]
    part = f"{tag.sent.rule}  {part_title(voice, tag.sent.rule)}"
    said = [caption(voice.say(f"tag.{key}")), *draft, text(tag.number, _NUMBER), text(part, _PART)]
    code = [Code(tag.address, 24 * mm)] if tag.address else []
    beside, inner = [one.whole for one in code], width - 4 * mm
    head = ruled([[tuple(said), *code]], [inner - sum(beside), *beside], *bare())
    facts = ruled(_facts(tags, tag, voice), [36 * mm, inner - 36 * mm], boxed(), between(), upright())
    whole = (head, Spacer(0, 1.5 * mm), facts, *_cautions(tags, voice))
    return ruled([[whole]], [width], boxed(HEAVY), *padded(2 * mm))


def _facts(tags: PartTags, tag: PartTag, voice: Voice) -> list[list[Cell]]:
    paper = tags.quotation
    rows: list[tuple[str, Cell]] = [("quotation", text(f"{paper.number} · {paper.revision}", STRONG))]
    rows += [("order", text(tags.order, STRONG))] if tags.order else []
    rows += [
        ("needed", text(_needed(tag, voice), _NEEDED)),
        ("limit", tuple(text(line) for line in _limits(paper, tag, voice))),
    ]
    company = [voice.words(keep.label) for keep in paper.book.keeps if keep.id in tag.sent.company]
    rows += [("with", text("; ".join(company)))] if company else []
    rows.append(("send-to", text(" · ".join((paper.firm.name, *paper.firm.address, paper.firm.telephone)), STRONG)))
    return [[text(voice.say(f"tag.{key}"), SMALL), cell] for key, cell in rows]


def _needed(tag: PartTag, voice: Voice) -> str:
    stage = voice.stage(voice.book.rule(tag.sent.rule).needed_before or "")
    if tag.needed is None:
        return voice.say("tag.needed-stage", stage=stage)
    return voice.say("tag.needed-day", day=voice.figures.day(tag.needed), stage=stage)


def _limits(paper: QuotationPaper, tag: PartTag, voice: Voice) -> list[str]:
    """The limits of its condition; where the book has none apart, the rule's own reason."""
    cut = paper.book.cut(tag.sent.rule)
    lines = [] if cut is None else [one for one in cut.remarks if one.about is Remark.LIMIT]
    return [voice.measured(one.text, paper.units) for one in lines] or [voice.reason(tag.sent.rule)]


def _cautions(tags: PartTags, voice: Voice) -> list[Flowable]:
    lines = [*map(voice.caution, tags.cautions), voice.say("tag.yours")]
    return [Spacer(0, 1 * mm), text(" ".join(lines), CELL)]
