"""What is in it and what is not, delivery, payment, terms, cautions where due, and the block to sign."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from decimal import Decimal
from re import sub

from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, Spacer

from app.documents.contents import Measures, QuotationPaper, Units
from app.documents.quotation.stock import stock_terms
from app.documents.saying.accounts import account_words
from app.documents.saying.voice import Voice
from app.documents.typesetting.fonts import printable
from app.documents.typesetting.lettering import HEAVY, SMALL, STRONG, caption, heading, opening, text
from app.documents.typesetting.ruled import Cell, between, boxed, dense, ruled, shares, upright
from app.documents.typesetting.stationery import inner_width
from rules.model import Goes, Words

_TERMS = ("included", "excluded", "delivery", "measures", "payment", "changes", "stock", "warranty")


def closing(paper: QuotationPaper, voice: Voice, warned: list[Flowable]) -> list[Flowable]:
    """Note, acceptance, and before it the cautions (`warned`), unless they stand on page one."""
    signed = KeepTogether([*warned, *_acceptance(paper, voice, inner_width(paper.sheet))])
    return [*_note(paper.note, voice), signed]


def terms(paper: QuotationPaper, voice: Voice, which: tuple[str, ...] = _TERMS) -> list[Flowable]:
    """What is in it and what is not, delivery, size and mass, payment, changes, warranty; or `which` of them."""
    width = inner_width(paper.sheet)
    sentences = {
        "included": _included(paper, voice),
        "excluded": _excluded(paper, voice),
        "delivery": _delivery(paper, voice),
        "measures": [_measure(measures, paper.units, voice) for measures in paper.measures],
        "payment": _payment(paper, voice),
        "changes": [_own(paper.firm.changes, "close.changes-default", voice)],
        "stock": stock_terms(paper, voice),
        "warranty": [_own(paper.firm.warranty, "close.warranty-default", voice)],
    }
    heads = {"stock": "stock.heading"}
    rows = [_row(voice.say(heads.get(key, f"close.{key}")), sentences[key]) for key in which if sentences[key]]
    table = ruled(rows, shares(width, 31, 139), boxed(), between(), upright(), *dense())
    return [CondPageBreak(45 * mm), opening(voice.say("close.terms")), table]


def _note(note: str, voice: Voice) -> list[Flowable]:
    """The desk's own note, over as many sheets as it takes; blank lines in a row count as one."""
    words = sub(r"\s*\n\s*\n\s*", "\n\n", printable(note)).strip()
    lines = words.split("\n")
    pieces = ["\n".join(lines[at : at + _PIECE]) for at in range(0, len(lines), _PIECE)]
    return (
        [CondPageBreak(25 * mm), opening(voice.say("close.note")), *(text(piece, SMALL) for piece in pieces)]
        if words
        else []
    )


#: Lines of a note set in one go: a paragraph is broken anew on every sheet that it runs over.
_PIECE = 40


def _row(head: str, sentences: list[str]) -> list[Cell]:
    return [text(head, STRONG), text(" ".join(sentences), SMALL)]


def _own(words: Words, default: str, voice: Voice) -> str:
    return voice.words(words) if words else voice.say(default)


def _included(paper: QuotationPaper, voice: Voice) -> list[str]:
    own = [voice.words(words) for words in paper.firm.included]
    return own or [voice.say("close.included-shell"), voice.say("close.included-lines")]


def _excluded(paper: QuotationPaper, voice: Voice) -> list[str]:
    own = [voice.words(words) for words in paper.firm.excluded] or [voice.say("close.excluded-lines")]
    own.append(voice.say("close.excluded-identity"))
    return [*own, voice.say("close.excluded-import")] if _leaves(paper) else own


def _delivery(paper: QuotationPaper, voice: Voice) -> list[str]:
    delivery = paper.delivery
    if not delivery.choice:
        return [voice.say("close.delivery-open")]
    choice = voice.role_choice("delivery", delivery.choice)
    place = _place(paper, choice, voice)
    slots = {"choice": choice[:1].upper() + choice[1:], "place": place}
    where = voice.say("close.delivery-place" if place else "close.delivery-choice", **slots)
    term = voice.say("close.delivery-term" if delivery.term else "close.delivery-no-term", term=delivery.term)
    plain = [voice.say(f"goes.{goes.how}") for goes in _goes(paper)]
    return [where, *plain, term]


def _goes(paper: QuotationPaper) -> list[Goes]:
    """What the chosen delivery means; empty where the book says nothing of it."""
    return [goes for goes in paper.book.tax.goes if goes.choice == paper.delivery.choice]


def _place(paper: QuotationPaper, choice: str, voice: Voice) -> str:
    """Where we send it, as far as the choice does not say so itself; nothing where it is collected."""
    delivery = paper.delivery
    if any(goes.how == "collected" for goes in _goes(paper)):
        return ""
    country = voice.figures.country(delivery.country) if delivery.country else ""
    return ", ".join(part for part in (delivery.place, country) if part and part not in choice)


def _leaves(paper: QuotationPaper) -> bool:
    """Whether the goods leave the firm's country."""
    return bool(paper.delivery.country) and paper.delivery.country != paper.book.tax.home


def _measure(measures: Measures, units: Units, voice: Voice) -> str:
    figures = [_size(measures, units, voice)] if measures.length_mm else []
    figures += [_mass(measures, units, voice)] if measures.mass_to_kg else []
    return voice.say("close.measure", label=voice.words(measures.label), figures=", ".join(figures))


def _size(measures: Measures, units: Units, voice: Voice) -> str:
    figures = voice.figures
    sides = {"length": measures.length_mm, "width": measures.width_mm, "height": measures.height_mm}
    slots = {name: figures.measure(Decimal(mm_)) for name, mm_ in sides.items()}
    slots |= {f"{name}_in": figures.inches(mm_) for name, mm_ in sides.items()}
    return voice.say("close.size-both" if units is Units.BOTH else "close.size", **slots)


def _mass(measures: Measures, units: Units, voice: Voice) -> str:
    figures = voice.figures
    ends = {"low": measures.mass_from_kg, "high": measures.mass_to_kg}
    slots = {name: figures.number(kg) for name, kg in ends.items()}
    slots |= {f"{name}_lb": figures.pounds(kg) for name, kg in ends.items()}
    return voice.say("close.mass-both" if units is Units.BOTH else "close.mass", **slots)


def _payment(paper: QuotationPaper, voice: Voice) -> list[str]:
    if not paper.prices_shown:
        return []
    percent = voice.figures.percent(paper.book.terms.deposit_percent)
    stages, account = voice.say("close.payment-stages", percent=percent), paper.firm.account
    to = [] if account is None else [voice.say("close.payment-to", account=account_words(account, voice.say))]
    return [stages, *to, voice.say("close.payment-bank")]


def cautions(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """Those of the rules, and those that stand in the book."""
    rules = dict.fromkeys(rule for shell in paper.shells for rule in shell.depends.cautions)
    standing = dict.fromkeys(caution for shell in paper.shells for caution in shell.cautions)
    return cautions_of(rules, standing, voice, inner_width(paper.sheet))


def cautions_of(rules: Iterable[str], standing: Collection[str], voice: Voice, width: float) -> list[Flowable]:
    """Ids of rules, each with its reason, and of the book's own cautions; where it has none, what a shell is."""
    said = [(rule, voice.reason(rule)) for rule in rules]
    said += [("!", voice.caution(caution)) for caution in standing]
    if not standing:
        said.append(("!", voice.say("close.caution-component")))
    return caution_box(said, voice, width)


def caution_box(said: Iterable[tuple[str, str]], voice: Voice, width: float) -> list[Flowable]:
    """In a heavy box, each sentence beside the sign or the id of what speaks."""
    rows: list[list[Cell]] = [[text(sign, STRONG), text(sentence, SMALL)] for sign, sentence in said]
    table = ruled(rows, [9 * mm, width - 9 * mm], boxed(HEAVY), between(), *dense())
    return [heading(voice.say("close.cautions")), table]


def _acceptance(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    head = heading(voice.say("accept.heading"))
    if not paper.issued or paper.valid_until is None:
        return [head, text(voice.say("accept.draft"), STRONG)]
    accept = voice.say("accept.text", number=paper.number, revision=paper.revision)
    block = to_sign(accept, voice, width, *case_to_tick(paper, voice))
    return [head, block, Spacer(0, 1 * mm), text(returned(paper, voice), SMALL)]


def to_sign(said: str, voice: Voice, width: float, *asked: list[Cell]) -> Flowable:
    """What somebody signs, over the room for his name, the date and his signature; `asked`: rows before these."""
    blanks = [caption(voice.say(f"accept.{key}")) for key in ("name", "date", "signature")]
    return ruled(
        [[text(said, STRONG), "", ""], *asked, blanks],
        shares(width, 64, 36, 70),
        boxed(HEAVY), between(), ("SPAN", (0, 0), (-1, 0)),
        ("LINEAFTER", (0, -1), (1, -1), 0.35, STRONG.textColor),
        ("BOTTOMPADDING", (0, -1), (-1, -1), 13 * mm), ("BOTTOMPADDING", (0, 0), (-1, 0), 2 * mm),
    )  # fmt: skip


def returned(paper: QuotationPaper, voice: Voice) -> str:
    """Where it goes and by when; nothing of a draft, which nobody signs."""
    if not paper.issued or paper.valid_until is None:
        return ""
    until, zone = voice.figures.day(paper.valid_until), voice.figures.zone(paper.book.calendar.zone)
    return voice.say("accept.return", firm=paper.firm.name, until=until, zone=zone)


def case_to_tick(paper: QuotationPaper, voice: Voice) -> list[list[Cell]]:
    """The row in which the customer says which tax case is his; none where that is decided."""
    if paper.totals is None or paper.totals.decided:
        return []
    return [[text(voice.say("accept.case")), "", ""]]
