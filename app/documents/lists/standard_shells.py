"""The list of standard shells as a PDF: every usual specification that can be built, with its price on each list.

It lays out what was proved of a book and decides nothing. What is the same on every shell is said once, above.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer

from app.documents.contents import Firm, Sheet
from app.documents.saying.figures import Figures
from app.documents.saying.voice import Voice
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import (
    BODY,
    CAPTION_RIGHT,
    HEAVY,
    REASON,
    ROW,
    SMALL,
    STRONG,
    caption,
    heading,
    style,
    text,
)
from app.documents.typesetting.ruled import Cell, bare, between, dense, headed, ruled, shares, under
from app.documents.typesetting.stationery import SIZES, Field, Stationery, firm_sheets, inner_width, print_sheets
from rules.donor.identity import write_number
from rules.donor.usual import key_options
from rules.model import Book, Kind, PriceList
from rules.proof import StandardShell
from rules.specification import Donor

_FIRM = style("list-firm", 19, 22, fontName=STRONG.fontName)
_TITLE = style("list-title", 14, 18, fontName=STRONG.fontName)
_ROW_RIGHT = style("list-row-right", 8.2, 9.8, alignment=2)

_AIR = ("BOTTOMPADDING", (0, 0), (-1, -1), 2 * mm)

#: Shares of a row's width: each key, what it waits for, each price; in the second list the car in one, and the donor.
_KEY, _WAITS, _PRICE, _CAR, _DONOR = 22, 36, 18, 38, 74


@dataclass(frozen=True, slots=True)
class StandardShellsPaper:
    """Everything that is printed. `shells` can be built, `broken` can't; `dated`: a day of the firm's own zone."""

    book: Book
    tool_state: int
    firm: Firm
    dated: date
    shells: tuple[StandardShell, ...]
    broken: tuple[StandardShell, ...] = ()
    language: str = "en"
    locale: str = "en_GB"
    sheet: Sheet = Sheet.A4


def standard_shells_pdf(paper: StandardShellsPaper, font_folder: Path = fonts.FOLDER) -> bytes:
    """The paper as PDF bytes, identical for identical input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    voice = Voice(paper.book, paper.language, Figures(paper.locale, ""))
    return print_sheets(_stationery(paper, voice), list(_story(paper, voice)))


def _stationery(paper: StandardShellsPaper, voice: Voice) -> Stationery:
    return firm_sheets(
        voice.say,
        paper.locale,
        SIZES[paper.sheet],
        paper.firm.name,
        voice.say("shells.document-title", book=paper.book.number),
        Field(voice.say("block.from"), paper.firm.name, 0.3),
        Field(voice.say("block.paper"), voice.say("shells.title"), 0.28, strong=True),
        Field(voice.say("block.dated"), voice.figures.short_day(paper.dated), 0.16),
        Field(voice.say("block.book"), f"{paper.book.number} · {paper.tool_state}", 0.16),
        subject=voice.words(paper.book.title),
    )


def _story(paper: StandardShellsPaper, voice: Voice) -> Iterator[Flowable]:
    width = inner_width(paper.sheet)
    yield from _head(paper, voice, width)
    plain = [shell for shell in paper.shells if shell.donor == Donor()]
    told = [shell for shell in paper.shells if shell.donor != Donor()]
    yield _table(paper, plain, voice, width) if plain else text(voice.say("shells.none"), BODY)
    if told:
        yield heading(voice.say("shells.donor-heading"))
        yield text(voice.say("shells.donor-lead"), SMALL)
        yield Spacer(0, 1 * mm)
        yield _donor_table(paper, told, plain, voice, width)
    yield from _missing(paper, voice)


def _head(paper: StandardShellsPaper, voice: Voice, width: float) -> Iterator[Flowable]:
    firm = paper.firm
    contact = " · ".join(part for part in (*firm.address, firm.telephone, firm.email) if part)
    yield ruled([[(text(firm.name, _FIRM), text(contact, SMALL))]], [width], *bare(), under(0, HEAVY), _AIR)
    yield Spacer(0, 2 * mm)
    yield text(voice.say("shells.title"), _TITLE)
    yield text(voice.words(paper.book.title), BODY)
    yield text(voice.say("shells.lead", day=voice.figures.day(paper.dated), book=paper.book.number), BODY)
    common = _common(paper, voice)
    if common:
        yield text(voice.say("shells.common", choices=common), SMALL)
    yield Spacer(0, 2 * mm)


def _common(paper: StandardShellsPaper, voice: Voice) -> str:
    """The dress that every shell of the list has: what isn't structural and nowhere differs."""
    made = [shell.specification for shell in paper.shells]
    same = [
        (option.id, made[0][option.id])
        for option in paper.book.options
        if made and not option.structural and len({one[option.id] for one in made}) == 1
    ]
    return "; ".join(_choice(voice, *pair) for pair in same)


def _choice(voice: Voice, option: str, choice: str) -> str:
    return voice.say("price.choice", option=voice.option(option), choice=voice.choice(option, choice))


def _table(paper: StandardShellsPaper, shells: Sequence[StandardShell], voice: Voice, width: float) -> Flowable:
    """The shells of cars of which nothing is known: a column for each of their keys."""
    keys = key_options(paper.book)
    heads = [caption(voice.option(key)) for key in keys]
    rows = [[text(voice.choice(*pair), ROW) for pair in shell.keys.items()] for shell in shells]
    return _priced(paper, shells, voice, [heads, *rows], shares(width, *[_KEY] * len(keys), *_ends(paper)))


def _donor_table(
    paper: StandardShellsPaper,
    shells: Sequence[StandardShell],
    plain: Sequence[StandardShell],
    voice: Voice,
    width: float,
) -> Flowable:
    """Those of cars of which more is known, told from the `plain` ones."""
    usual = {tuple(shell.keys.values()): shell.specification for shell in plain}
    heads: list[Cell] = [caption(voice.say("shells.shell")), caption(voice.say("shells.donor"))]
    rows: list[list[Cell]] = [
        [text(_keys(shell, voice), ROW), _donor(paper.book, shell, usual.get(tuple(shell.keys.values())), voice)]
        for shell in shells
    ]
    return _priced(paper, shells, voice, [heads, *rows], shares(width, _CAR, _DONOR, *_ends(paper)))


def _priced(
    paper: StandardShellsPaper,
    shells: Sequence[StandardShell],
    voice: Voice,
    firsts: Sequence[Sequence[Cell]],
    widths: Sequence[float],
) -> Flowable:
    """The table, what each shell waits for and costs put behind its first cells."""
    lists = paper.book.lists
    heads = [caption(voice.say("shells.waits")), *(_list_head(one, voice) for one in lists)]
    ends = [[_waits(paper.book, shell, voice), *_amounts(shell, lists, voice)] for shell in shells]
    rows = [[*first, *end] for first, end in zip(firsts, [heads, *ends], strict=True)]
    table = ruled(rows, widths, *headed(), *dense(), between(1), under(-1), heads=1)
    table.splitInRow = 0
    return table


def _ends(paper: StandardShellsPaper) -> list[int]:
    return [_WAITS, *[_PRICE] * len(paper.book.lists)]


def _list_head(listed: PriceList, voice: Voice) -> Flowable:
    name = listed.id if listed.id == listed.currency else f"{listed.id} ({listed.currency})"
    return caption(voice.say("shells.price", list=name), CAPTION_RIGHT)


def _waits(book: Book, shell: StandardShell, voice: Voice) -> Flowable:
    return text("; ".join(_gate(book, gate, voice) for gate in shell.gates) or "–", ROW)


def _amounts(shell: StandardShell, lists: Sequence[PriceList], voice: Voice) -> list[Flowable]:
    amounts = {price.list: price.amount for price in shell.prices}
    return [text(_amount(amounts[one.id], one.currency, voice), _ROW_RIGHT) for one in lists]


def _amount(amount: int | None, currency: str, voice: Voice) -> str:
    """Without the currency's sign: the head of the column names it."""
    return voice.say("shells.not-priced") if amount is None else Figures(voice.figures.locale, currency).bare(amount)


def _gate(book: Book, gate: str, voice: Voice) -> str:
    rule = book.rule(gate)
    key = "shells.part" if Kind.PART in rule.kinds else "shells.approval"
    return voice.say(key, rule=gate, name=voice.words(rule.title) if rule.title else gate)


def _donor(book: Book, shell: StandardShell, plain: Mapping[str, str] | None, voice: Voice) -> tuple[Flowable, ...]:
    """What tells the car apart, and below it what its shell therefore has otherwise."""
    other = [(o, c) for o, c in shell.specification.items() if plain is None or plain[o] != c]
    return (
        text(donor_words(book, shell.donor, voice), ROW),
        text("; ".join(_choice(voice, *pair) for pair in other), REASON),
    )


def donor_words(book: Book, donor: Donor, voice: Voice) -> str:
    """The number and the gearbox that tell a donor car apart."""
    series = next((one for one in book.series if one.choice == donor.series), None)
    number = "" if series is None or donor.number is None else write_number(series, donor.number)
    said = [voice.say("shells.donor-number", number=number)] if number else []
    return ", ".join([*said, voice.gearbox(donor.gearbox)] if donor.gearbox else said) or str(donor.series)


def _missing(paper: StandardShellsPaper, voice: Voice) -> Iterator[Flowable]:
    """What isn't on the list, by the rules that forbid it."""
    if not paper.broken:
        return
    yield heading(voice.say("shells.missing-heading"))
    for causes in dict.fromkeys(shell.causes for shell in paper.broken):
        named = "; ".join(_named(paper.book, shell, voice) for shell in paper.broken if shell.causes == causes)
        reasons = " ".join(f"{rule}: {voice.reason(rule)}" for rule in causes)
        yield text(voice.say("shells.missing", shells=named, reasons=reasons), SMALL)


def _named(book: Book, shell: StandardShell, voice: Voice) -> str:
    donor = [] if shell.donor == Donor() else [donor_words(book, shell.donor, voice)]
    return " · ".join([_keys(shell, voice), *donor])


def _keys(shell: StandardShell, voice: Voice) -> str:
    return " · ".join(voice.choice(*pair) for pair in shell.keys.items())
