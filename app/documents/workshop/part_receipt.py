"""The receipt record of a customer's part: what came when, each limit with what was found, pictures, and the verdict.

It lays out what `PartReceipt` carries, names no price, and decides nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from io import BytesIO
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Image, KeepTogether, Spacer

from app.documents.contents import QuotationPaper, Units
from app.documents.saying.voice import Voice, voice_of
from app.documents.shared.answers import part_title
from app.documents.shared.letterhead import look_of
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import FINE, HEAVY, SMALL, STRONG, caption, heading, style, text
from app.documents.typesetting.ruled import Cell, bare, between, boxed, headed, ruled, shares, upright
from app.documents.typesetting.stationery import Field, Stationery, inner_width, print_sheets
from app.domain.part import Arrival, Finding, PartStands, Verdict
from rules.model import Remarked

_TITLE = style("receipt-title", 14, 18, fontName=STRONG.fontName)
_TAG = style("receipt-tag", 20, 25, fontName=STRONG.fontName)
_VERDICT = style("receipt-verdict", 15, 19, fontName=STRONG.fontName)

#: Two beside each other.
_WIDE = 78 * mm
_HIGH = 54 * mm


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph as it is kept; `width` and `height` in pixels."""

    jpeg: bytes
    width: int
    height: int
    said: str


@dataclass(frozen=True, slots=True)
class PartReceipt:
    """`tag`: its number; `turn` counts from 1 the parts that came under it. `names`: sign-in name → what he is called.

    `cautions`: ids of the book's that hold. `printed`: today.
    """

    quotation: QuotationPaper
    order: str
    shell: str
    tag: str
    rule: str
    turn: int
    arrival: Arrival
    names: Mapping[str, str]
    pictures: tuple[Picture, ...]
    printed: date
    cautions: tuple[str, ...]

    @property
    def limits(self) -> tuple[Remarked, ...]:
        cut = self.quotation.book.cut(self.rule)
        return () if cut is None else cut.limits


def part_receipt_pdf(receipt: PartReceipt, font_folder: Path = fonts.FOLDER) -> bytes:
    """The record as PDF bytes; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    voice = voice_of(receipt.quotation)
    return print_sheets(_look(receipt, voice), _story(receipt, voice))


def _look(receipt: PartReceipt, voice: Voice) -> Stationery:
    paper = receipt.quotation
    title = voice.say("receipt.document-title", number=receipt.tag)
    return look_of(
        paper,
        voice,
        title,
        Field(voice.say("block.from"), paper.firm.name, 0.22),
        Field(voice.say("block.paper"), voice.say("receipt.title"), 0.18, strong=True),
        Field(voice.say("receipt.tag"), receipt.tag, 0.26, strong=True),
        Field(voice.say("tag.printed"), voice.figures.short_day(receipt.printed), 0.14),
        subject=title,
    )


def _story(receipt: PartReceipt, voice: Voice) -> list[Flowable]:
    width = inner_width(receipt.quotation.sheet)
    return [
        text(voice.say("receipt.title"), _TITLE),
        text(receipt.tag, _TAG),
        Spacer(0, 2 * mm),
        _about(receipt, voice, width),
        heading(voice.say("receipt.arrival")),
        _came(receipt, voice, width),
        *_found(receipt, voice, width),
        *_verdict(receipt, voice, width),
        *_pictures(receipt, voice, width),
        *_since(receipt, voice, width),
        Spacer(0, 2 * mm),
        text(" ".join((*map(voice.caution, receipt.cautions), voice.say("receipt.yours"))), SMALL),
    ]


def _about(receipt: PartReceipt, voice: Voice, width: float) -> Flowable:
    paper = receipt.quotation
    donor = paper.donor.canonical or paper.donor.text or "–"
    told = (
        ("part", f"{receipt.rule}  {part_title(voice, receipt.rule)}"),
        ("of", voice.say("receipt.of-shell", order=receipt.order, shell=receipt.shell)),
        ("customer", paper.customer.name),
        ("donor", donor),
    )
    return _facts(told, voice, width)


def _came(receipt: PartReceipt, voice: Voice, width: float) -> Flowable:
    one = receipt.arrival
    told = (
        ("came", voice.figures.day(one.day)),
        ("by", _called(receipt, one.by)),
        ("which", voice.say("receipt.turn", turn=receipt.turn)),
        ("note", one.note),
    )
    return _facts(told, voice, width)


def _facts(told: Iterable[tuple[str, str]], voice: Voice, width: float) -> Flowable:
    """What it is, and what is said of it; nothing of what is empty."""
    cells: list[list[Cell]] = [
        [text(voice.say(f"receipt.{key}"), SMALL), text(said, STRONG)] for key, said in told if said
    ]
    return ruled(cells, shares(width, 36, 134), boxed(), between(), upright())


def _found(receipt: PartReceipt, voice: Voice, width: float) -> Iterator[Flowable]:
    """Every limit, answered or not: a blank shows as one."""
    if not receipt.limits:
        return
    verdict = receipt.arrival.verdict
    answers = (*(verdict.findings if verdict else ()), *[Finding()] * len(receipt.limits))
    head: list[Cell] = [caption(voice.say(f"receipt.{key}")) for key in ("limit", "measured", "met")]
    rows: list[list[Cell]] = [head]
    units = receipt.quotation.units
    for limit, one in zip(receipt.limits, answers, strict=False):
        rows.append([text(voice.measured(limit.text, units)), text(_measured(limit, one, units, voice), STRONG),
                     text(_met(one, voice), STRONG)])  # fmt: skip
    yield heading(voice.say("receipt.limits"))
    yield ruled(rows, shares(width, 112, 30, 28), boxed(), *headed(), between(1), upright(), heads=1)


def _measured(limit: Remarked, one: Finding, units: Units, voice: Voice) -> str:
    if limit.bound is None:
        return "–"
    return voice.say("receipt.blank") if one.measured is None else voice.length(one.measured, units)


def _met(one: Finding, voice: Voice) -> str:
    return voice.say({True: "receipt.yes", False: "receipt.no", None: "receipt.blank"}[one.met])


def _verdict(receipt: PartReceipt, voice: Voice, width: float) -> list[Flowable]:
    verdict = receipt.arrival.verdict
    if verdict is None:
        return [KeepTogether([heading(voice.say("receipt.verdict")), text(voice.say("receipt.open"), STRONG)])]
    said = [text(voice.say("receipt.passed" if verdict.passed else "receipt.failed"), _VERDICT)]
    said += [text(verdict.why)] if verdict.why else []
    signed = tuple(_signed(receipt, verdict, voice))
    box = ruled([[tuple(said), signed]], shares(width, 100, 70), boxed(HEAVY), upright())
    return [KeepTogether([heading(voice.say("receipt.verdict")), box])]


def _signed(receipt: PartReceipt, verdict: Verdict, voice: Voice) -> list[Flowable]:
    by = voice.say("receipt.signed", name=_called(receipt, verdict.signed))
    return [text(by, STRONG), text(voice.figures.day(verdict.day)), text(voice.say("receipt.code"), FINE)]


def _pictures(receipt: PartReceipt, voice: Voice, width: float) -> Iterator[Flowable]:
    if not receipt.pictures:
        return
    shown = [_picture(one, voice, at) for at, one in enumerate(receipt.pictures, start=1)]
    pairs = ([*shown[at : at + 2], ""][:2] for at in range(0, len(shown), 2))
    first, *rest = (ruled([pair], [width / 2, width / 2], *bare()) for pair in pairs)
    yield KeepTogether([heading(voice.say("receipt.pictures")), first])
    for row in rest:
        yield KeepTogether([row, Spacer(0, 0)])


def _picture(one: Picture, voice: Voice, at: int) -> Cell:
    scale = min(_WIDE / one.width, _HIGH / one.height)
    image = Image(BytesIO(one.jpeg), one.width * scale, one.height * scale)
    image.hAlign = "LEFT"
    said = voice.say("receipt.picture" if one.said else "receipt.picture-bare", number=at, said=one.said)
    return (Spacer(0, 1 * mm), image, text(said, SMALL), Spacer(0, 2 * mm))


def _since(receipt: PartReceipt, voice: Voice, width: float) -> Iterator[Flowable]:
    """What became of it, each with its day; on paper room to write in what is to come."""
    if receipt.arrival.stands is not PartStands.FAILED:
        return
    done = [(voice.say(f"receipt.{one.act.value}"), voice.figures.day(one.day), _called(receipt, one.by), one.note)
            for one in receipt.arrival.acts]  # fmt: skip
    rows: list[list[Cell]] = [[caption(voice.say(f"receipt.{key}")) for key in ("what", "day", "by", "note")]]
    rows += [[text(cell) for cell in row] for row in done]
    rows += [] if receipt.arrival.gone else [[Spacer(0, 7 * mm), "", "", ""]]
    table = ruled(rows, shares(width, 44, 36, 40, 50), boxed(), *headed(), between(1), upright(), heads=1)
    yield KeepTogether([heading(voice.say("receipt.since")), table])


def _called(receipt: PartReceipt, name: str) -> str:
    return receipt.names.get(name, name)
