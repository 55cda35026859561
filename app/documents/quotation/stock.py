"""What a quotation says of shells from the firm's stock: which one a line is, until when it is held, how it differs."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from app.documents.contents import QuotationPaper, ShellLine
from app.documents.saying.voice import Voice
from app.documents.shared.alike import numbers
from app.domain.quotations.quotation import FromStock


def from_stock(paper: QuotationPaper, voice: Voice) -> list[str]:
    """A paragraph for each line that is a shell of stock."""
    found = [(place, shell, shell.stock) for place, shell in enumerate(paper.shells) if shell.stock is not None]
    return [" ".join(_said(place, shell, stock, voice)) for place, shell, stock in found]


def stock_terms(paper: QuotationPaper, voice: Voice) -> list[str]:
    """How cancelling is otherwise there; empty where every line is made for the customer."""
    return [voice.say("stock.terms")] if any(shell.stock is not None for shell in paper.shells) else []


def _said(place: int, shell: ShellLine, stock: FromStock, voice: Voice) -> list[str]:
    until = stock.until.astimezone(ZoneInfo(voice.book.calendar.zone))
    held = voice.say("stock.held", day=voice.figures.day(until.date()), clock=f"{until:%H:%M}")
    key = "stock.finished" if stock.finished else "stock.in-build"
    said = [voice.say(key, shells=numbers([place]), name=stock.name), *_ready(shell, voice)]
    if stock.changed:
        changes = "; ".join(f"{voice.option(one)}: {voice.choice(one, shell.settled[one])}" for one in stock.changed)
        said.append(voice.say("stock.changed", changes=changes))
    if stock.second:
        said.append(voice.say("stock.second", why=stock.why))
    return [*said, held]


def _ready(shell: ShellLine, voice: Voice) -> list[str]:
    if shell.foreseen is None:
        return []
    days = {"earliest": voice.figures.day(shell.foreseen.ready), "latest": voice.figures.day(shell.foreseen.ready_by)}
    return [voice.say("stock.ready", **days)]
