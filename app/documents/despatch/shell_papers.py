"""The papers that go with a shell, each laid out from the same consignment: one story for each, and nothing decided.

The declaration has what ISO/IEC 17050-1 asks for: number, issuer, object, documents it conforms to, further
information, and who signs for the issuer where and when. It is of a component: a shell is no approved vehicle.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, PageBreak, Spacer

from app.documents.contents import Sheet
from app.documents.despatch.consignment import (
    cautions,
    chosen,
    facts,
    head,
    listing,
    look_of,
    mass,
    packages,
    parties,
    side_by_side,
    speech_of,
    to_fill,
)
from app.documents.saying.speech import Speech
from app.documents.shared.letterhead import sender_lines
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import CELL, SMALL, STRONG, heading, text
from app.documents.typesetting.stationery import inner_width, print_best
from app.domain.despatch.consignment import Consignment, Paper


@dataclass(frozen=True, slots=True)
class Layout:
    """`box`: room to write in, in points. `parted`: what is signed begins a sheet, with what it is signed for."""

    box: float = 12 * mm
    parted: bool = False


#: Tried in this order until no sheet holds a few lines alone, least of all those to be signed.
_LAYOUTS = (Layout(), Layout(box=6 * mm), Layout(parted=True))

Story = Callable[[Consignment, Speech, float, Layout], list[Flowable]]


def shell_paper_pdf(
    told: Consignment, paper: Paper, language: str, sheet: Sheet, address: str = "", font_folder: Path = fonts.FOLDER
) -> bytes:
    """The paper as PDF bytes, the same for the same input. `address`: where its code leads; empty for none."""
    fonts.register(font_folder)
    speech, width = speech_of(told, language), inner_width(sheet)
    top = head(told, paper, speech, width, address)
    stories = ([*top, *_STORIES[paper](told, speech, width, layout)] for layout in _LAYOUTS)
    return print_best(look_of(told, paper, speech, sheet), stories)


def _packing_list(told: Consignment, speech: Speech, width: float, layout: Layout) -> list[Flowable]:
    return [
        parties(told, speech, width),
        *packages(told, speech, width),
        *listing("loose", told.packing.loose, speech),
        *listing("returned", told.packing.returned, speech),
        KeepTogether([heading(speech.say("leaving.packed-by")), _packed(speech, width, layout)]),
    ]


def _parting(layout: Layout) -> list[Flowable]:
    return [PageBreak()] if layout.parted else []


def _packed(speech: Speech, width: float, layout: Layout) -> Flowable:
    return to_fill((("packed-name", "packed-day"),), speech, width, layout.box)


def _despatch_advice(told: Consignment, speech: Speech, width: float, layout: Layout) -> list[Flowable]:
    damage = speech.say("leaving.damage", days=speech.figures.number(told.trade.damage_days))
    boxes = to_fill(_RECEIVED, speech, width, layout.box)
    return [
        parties(told, speech, width),
        Spacer(0, 2 * mm),
        facts(_carriage(told, speech), width),
        *_finish(told, speech, width),
        *_parting(layout),
        *packages(told, speech, width),
        Spacer(0, 3 * mm),
        side_by_side(
            listing("loose", told.packing.loose, speech), listing("returned", told.packing.returned, speech), width
        ),
        *cautions(told, Paper.DESPATCH_ADVICE, speech, width),
        KeepTogether([heading(speech.say("leaving.received")), text(damage, STRONG), Spacer(0, 1.5 * mm), boxes]),
    ]


_RECEIVED = (("packages-seen", "damage-seen"), ("received-name", "received-day", "signature"))


def _carriage(told: Consignment, speech: Speech) -> list[tuple[str, str]]:
    packing, say = told.packing, speech.say
    overcoat = "" if told.overcoat_by is None else speech.figures.day(told.overcoat_by)
    return [
        (say("leaving.despatch-number"), told.number),
        (say("leaving.carrier"), packing.carrier),
        (say("leaving.term"), str(packing.term) if packing.term.rule else say("leaving.no-term")),
        (say("leaving.invoice"), told.invoice),
        (say("leaving.overcoat-by"), overcoat),
        (say("leaving.acknowledged"), told.acknowledged),
    ]


def _finish(told: Consignment, speech: Speech, width: float) -> list[Flowable]:
    return [heading(speech.say("leaving.finish")), chosen(told.finish, speech, width)] if told.finish else []


def _export_data(told: Consignment, speech: Speech, width: float, _: Layout) -> list[Flowable]:
    return [
        parties(told, speech, width),
        heading(speech.say("leaving.declared")),
        facts(_declared(told, speech), width),
        *packages(told, speech, width),
        Spacer(0, 2 * mm),
        text(speech.say("leaving.importers"), STRONG),
    ]


def _declared(told: Consignment, speech: Speech) -> list[tuple[str, str]]:
    say, packing, value = speech.say, told.packing, speech.figures.money(told.value)
    goods = say("leaving.goods-of", shell=speech.words(told.name), serial=told.serial)
    timber = packing.timber_mark or ("" if any(one.timber for one in packing.packages) else say("leaving.no-timber"))
    return [
        (say("leaving.exporter"), ", ".join((told.seller.name, *told.seller.address))),
        (say("leaving.exporter-number"), told.seller.tax_number),
        (say("leaving.goods"), goods),
        (say("leaving.hs-code"), told.trade.hs_code),
        (say("leaving.origin"), speech.figures.country(told.trade.origin)),
        (say("leaving.destination"), speech.figures.country(told.goes_to)),
        (say("leaving.quantity"), say("leaving.one-shell")),
        (say("leaving.net"), mass(packing.net_mass, told, speech)),
        (say("leaving.gross"), mass(packing.gross_mass, told, speech)),
        (say("leaving.term"), str(packing.term) if packing.term.rule else say("leaving.no-term")),
        (say("leaving.invoice"), told.invoice),
        (say("leaving.value"), say("leaving.value-before-tax", sum=value, currency=told.currency)),
        (say("leaving.timber"), timber),
        (say("leaving.evidence"), packing.evidence if told.untaxed else ""),
    ]  # fmt: skip


def _evidence_letter(told: Consignment, speech: Speech, width: float, layout: Layout) -> list[Flowable]:
    say = speech.say
    old = [text(f"– {speech.words(part)}", STRONG) for part in told.old_parts]
    new = say("leaving.all-new-but" if old else "leaving.all-new")
    donor = say("leaving.donor-stated", donor=told.donor) if told.donor else say("leaving.no-donor")
    return [
        parties(told, speech, width),
        heading(say("leaving.what-it-is")),
        text(say("leaving.evidence-text", firm=told.seller.name, serial=told.serial, shell=speech.words(told.name))),
        Spacer(0, 1.5 * mm),
        text(new, STRONG),
        *old,
        Spacer(0, 1.5 * mm),
        text(donor),
        text(say("leaving.no-identity"), CELL),
        text(say("leaving.authority-decides"), STRONG),
        *_parting(layout),
        heading(say("leaving.specification")),
        chosen(told.specification, speech, width),
        *_record(told, speech),
        *cautions(told, Paper.EVIDENCE_LETTER, speech, width),
        KeepTogether(_to_sign(told, _SIGNED, speech, width, layout)),
    ]


_SIGNED = ("signed-place", "signed-name", "signature")


def _to_sign(told: Consignment, names: tuple[str, ...], speech: Speech, width: float, layout: Layout) -> list[Flowable]:
    boxes = to_fill((names,), speech, width, layout.box)
    return [heading(speech.say("leaving.signed-for", firm=told.seller.name)), boxes]


def _declaration(told: Consignment, speech: Speech, width: float, layout: Layout) -> list[Flowable]:
    say = speech.say
    issuer = ", ".join((told.seller.name, *sender_lines(told.seller, say)))
    goods = say("leaving.goods-of", shell=speech.words(told.name), serial=told.serial)
    rows = [
        (say("leaving.declaration-number"), told.number or told.serial),
        (say("leaving.issuer"), issuer),
        (say("leaving.object"), goods),
    ]
    slots = {"order": told.order, "quotation": told.quotation, "letter": told.letter, "hash": told.record_hash}
    names = ("order", "specification", *(["record"] if told.record_hash else []))
    documents = [(say(f"leaving.document-{name}"), say(f"leaving.document-{name}-is", **slots)) for name in names]
    return [
        facts(rows, width),
        heading(say("leaving.conforms")),
        facts(documents, width),
        *_conceded(told, speech),
        heading(say("leaving.further")),
        text(say("leaving.component"), STRONG),
        text(say("leaving.no-approval"), CELL),
        *_parting(layout),
        heading(say("leaving.specification")),
        chosen(told.specification, speech, width),
        *cautions(told, Paper.DECLARATION, speech, width),
        KeepTogether([*_to_sign(told, _DECLARED, speech, width, layout), text(say("leaving.standard"), SMALL)]),
    ]


_DECLARED = ("signed-place", "signed-function", "signature")


def _conceded(told: Consignment, speech: Speech) -> list[Flowable]:
    """What was passed though it is not as it should be: a declaration without it would not be true."""
    day, words = speech.figures.day, speech.words
    said = (speech.say("leaving.conceded-on", subject=words(one.subject), day=day(one.day)) for one in told.conceded)
    return listing("conceded", (*said, *told.concessions), speech)


def _record(told: Consignment, speech: Speech) -> list[Flowable]:
    if not told.record_hash:
        return []
    return [heading(speech.say("leaving.record")), text(speech.say("leaving.record-is", hash=told.record_hash), SMALL)]


_STORIES: Mapping[Paper, Story] = {
    Paper.PACKING_LIST: _packing_list,
    Paper.DESPATCH_ADVICE: _despatch_advice,
    Paper.EXPORT_DATA: _export_data,
    Paper.EVIDENCE_LETTER: _evidence_letter,
    Paper.DECLARATION: _declaration,
}
