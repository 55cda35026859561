"""`check-book`: a rule book read from a file, counted, proved, and held against another. Nothing is published."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from pathlib import Path
from textwrap import wrap

from babel.numbers import format_decimal, get_currency_precision

from app import calendar
from app.commands.books import text_of
from app.commands.stop import Stop
from app.documents.lists.standard_csv import standard_shells_csv
from app.domain.errors import BookRefused
from app.services.books.publishing import usable_book
from app.web.telling.comparison import comparison_sentences
from app.web.telling.findings import (
    WEIGHTS,
    Finding,
    choice_named,
    example,
    findings,
    gate_named,
    line_named,
    shell_named,
    summary,
)
from app.web.telling.speech import Speech
from app.wording import say
from rules.engine.diagram import TooLarge
from rules.model import Book, ToolCondition
from rules.proof import Proof, StandardShell, prove
from rules.proof.compare import Comparison, Moved, Side, compare
from rules.reading import Mistake
from rules.reading import summary as contents_of
from rules.specification import Donor

#: Columns that the text is broken at.
WIDTH = 110


def check_book(given: argparse.Namespace) -> int:
    """Every mistake with its place, or counts and proof. 0: sound, and nothing that should be mended first."""
    try:
        book, other = _read(given.file), given.against and _read(given.against)
    except BookRefused as refused:
        return _mistaken(refused.mistakes)
    states = _states(given.lost, [book, *([other] if other else [])])
    try:
        proof = prove(book, states)
    except TooLarge as error:
        raise Stop(f"{given.file} reads well, but it can't be proved: {error}") from None
    if given.csv:
        print(standard_shells_csv(book, proof.standard, given.language), end="")
    else:
        _print(_told(book, proof, given.language))
        _print(_against(book, other, states, given.language) if other else ())
    return 0 if proof.sound else 1


def _read(file: Path) -> Book:
    return usable_book(text_of(file), str(file), calendar.knows)


def _mistaken(mistakes: Sequence[Mistake]) -> int:
    for mistake in mistakes:
        print(f"{mistake.file}:{mistake.line}: {mistake.what}: {mistake.instead}", file=sys.stderr)
    print(f"{len(mistakes)} to mend.", file=sys.stderr)
    return 1


def _states(lost: Sequence[str], books: Sequence[Book]) -> dict[str, ToolCondition]:
    """Raises Stop for a tool that no book names."""
    known = dict.fromkeys(tool.id for book in books for tool in book.tools)
    unknown = [tool for tool in lost if tool not in known]
    if unknown:
        raise Stop(f"There is no tool {', '.join(unknown)}. The book's tools: {', '.join(known) or 'none'}.")
    return dict.fromkeys(lost, ToolCondition.LOST)


def _print(lines: Iterator[str] | Sequence[str]) -> None:
    for line in lines:
        print(line)


def _told(book: Book, proof: Proof, language: str) -> Iterator[str]:
    yield from _aligned(_counts(book, proof, language))
    yield from _proof(book, proof, language)
    yield from _standard(book, proof.standard, language)


def _counts(book: Book, proof: Proof, language: str) -> Iterator[tuple[str, str]]:
    """What the book holds, and how many variants come of it."""
    yield from ((what, str(number)) for what, number in contents_of(book))
    yield say("proof.text.count", language), str(proof.count)
    yield say("proof.text.outright", language), str(proof.outright)
    if proof.variants is not None:
        yield say("proof.text.structures", language), str(proof.variants)
    speech = Speech(book, language)
    for one in proof.counts:
        slots = {"count": _whole(one.count, language), "outright": _whole(one.outright, language)}
        yield choice_named(speech, one.option, one.choice), say("proof.text.of-them", language, **slots)


def _proof(book: Book, proof: Proof, language: str) -> Iterator[str]:
    told = findings(book, proof, language)
    yield from ("", say("proof.text.proof", language), *_wrapped(" ".join(summary(told, language)), ""))
    for weight in WEIGHTS:
        weighed = [finding for finding in told if finding.weight == weight]
        yield from (say(f"proof.weight.{weight}", language),) if weighed else ()
        for finding in weighed:
            yield from _found(book, finding, language)


def _found(book: Book, finding: Finding, language: str) -> Iterator[str]:
    yield from _wrapped(finding.sentence, f"  {'!' if finding.fault else '-'} ")
    shown = example(book, finding, language)
    yield from _wrapped(shown, "    ") if shown else ()


def _standard(book: Book, shells: Sequence[StandardShell], language: str) -> Iterator[str]:
    yield from ("", say("proof.text.standard", language))
    rows = []
    for shell in (shell for shell in shells if shell.donor == Donor()):
        gates = Speech(book, language).list(gate_named(book, gate, language) for gate in shell.gates)
        prices = ", ".join(_price(book, one.list, one.amount, language) for one in shell.prices)
        rows.append((shell_named(book, shell, language), f"{prices}{'; ' + gates if gates else ''}"))
    yield from (f"  {line}" for line in _aligned(rows))


def _against(book: Book, other: Book, states: Mapping[str, ToolCondition], language: str) -> Iterator[str]:
    """From the other book to this one."""
    try:
        found = compare(Side(other, states), Side(book, states))
    except TooLarge as error:
        raise Stop(f"The two books can't be compared: {error}") from None
    yield from ("", say("proof.text.against", language, old=other.title.get(language, other.id)))
    for sentence in comparison_sentences(book, other, found, language):
        yield from _wrapped(sentence, "  - ")
    yield from _moved_prices(book, other, found, language)
    yield from _moved(book, other, found.structure or found.whole, language)


def _moved_prices(book: Book, other: Book, found: Comparison, language: str) -> Iterator[str]:
    rows = [
        (
            line_named(Speech(book, language), moved.line),
            f"{_price(other, moved.list, moved.was, language)} → {_price(book, moved.list, moved.now, language)}",
        )
        for moved in found.prices
    ]
    yield from ("", say("proof.text.prices", language)) if rows else ()
    yield from (f"  {line}" for line in _aligned(rows))


def _moved(book: Book, other: Book, moved: Moved, language: str) -> Iterator[str]:
    rows = []
    for one in (one for one in moved.choices if one.lost or one.gained):
        slots = {"lost": _whole(one.lost, language), "gained": _whole(one.gained, language)}
        named = _choice_of(book, other, one.option, one.choice, language)
        rows.append((named, say("proof.text.lost-and-gained", language, **slots)))
    yield from ("", say("proof.text.choices", language)) if rows else ()
    yield from (f"  {line}" for line in _aligned(rows))
    for key, examples in (("lost", moved.lost_examples), ("gained", moved.gained_examples)):
        for shell in examples:
            choices = "; ".join(_choice_of(book, other, *pair, language) for pair in shell.items())
            yield from _wrapped(say(f"proof.text.example-{key}", language, choices=choices), "  ")


def _choice_of(book: Book, other: Book, option: str, choice: str, language: str) -> str:
    """By the label of the book that has it."""
    has = any(o.id == option and any(c.id == choice for c in o.choices) for o in book.options)
    return choice_named(Speech(book if has else other, language), option, choice)


def _price(book: Book, list_: str, amount: int | None, language: str) -> str:
    currency = next((one.currency for one in book.lists if one.id == list_), "")
    if amount is None or not currency:
        return say("proof.text.not-priced", language, list=list_)
    major = Decimal(amount).scaleb(-get_currency_precision(currency))
    return f"{list_} {format_decimal(major, format='#,##0.00', locale=language)}"


def _whole(number: int, language: str) -> str:
    return str(format_decimal(number, locale=language))


def _aligned(rows: Iterator[tuple[str, str]] | Sequence[tuple[str, str]]) -> list[str]:
    laid = list(rows)
    width = max((len(what) for what, _ in laid), default=0)
    return [f"{what.ljust(width)}  {told}" for what, told in laid]


def _wrapped(words: str, head: str) -> list[str]:
    return wrap(words, WIDTH, initial_indent=head, subsequent_indent=" " * len(head), break_long_words=False)
