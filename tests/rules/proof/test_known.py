"""A book's own tests: what it is known to say, held against the engine, and what is wrong named part by part."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from rules.condition import DonorNumber
from rules.engine.prepare import prepare
from rules.model import Book, Known, ToolCondition
from rules.proof.known import Held, hold_known
from rules.reading import BookMistakes, read_book
from rules.writing import write_book

TEXT = (Path(__file__).parents[3] / "demo" / "skerry.book").read_text(encoding="utf-8")
DEMO = read_book(TEXT, "demo/skerry.book")
LOST = dict.fromkeys(("vented-scuttle-press", "narrow-tunnel-press", "small-window-press"), ToolCondition.LOST)


def held(book: Book) -> dict[str, Held]:
    return {one.known.id: one for one in hold_known(book, lambda donor: prepare(book, LOST, donor))}


def test_the_demo_book_says_what_it_is_known_to_say() -> None:
    """Answers, causes and sums as the trade's worked cases have them (6, 7, 11, 12)."""
    found = held(DEMO)
    assert {name: one.wrong for name, one in found.items() if one.wrong} == {}
    assert found["s1-with-its-own-tunnel"].price == 1_279_000
    assert found["s2-coupe-small-window"].because == (frozenset({"P4"}),)


def changed(**fields: object) -> Book:
    (known,) = (one for one in DEMO.known if one.id == "s1-with-its-own-tunnel")
    return replace(DEMO, known=(replace(known, **fields),))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("fields", "wrong"),
    [
        ({"answer": "yes"}, ("answer",)),
        ({"because": frozenset({"P1", "A1"})}, ("because",)),
        ({"price": ("GBP", 1_279_001)}, ("price",)),
        ({"answer": "no", "price": ("EUR", 1)}, ("answer", "price")),
    ],
)
def test_each_part_that_is_not_as_known_is_named(fields: dict[str, object], wrong: tuple[str, ...]) -> None:
    (one,) = held(changed(**fields)).values()
    assert one.wrong == wrong


def test_a_rule_taken_out_of_the_book_is_noticed() -> None:
    book = replace(DEMO, rules=tuple(rule for rule in DEMO.rules if rule.id not in ("N2", "A2")))
    found = held(book)
    assert found["s4-four-link-with-impact"].wrong == ("answer", "because")
    assert found["s4-four-link-with-chrome"].wrong == ("answer", "because")


def test_known_specifications_are_written_as_they_are_read() -> None:
    assert read_book(write_book(DEMO), "again").known == DEMO.known


def test_a_known_specification_of_a_car_with_its_gearbox_is_written_as_it_is_read() -> None:
    (known,) = changed(series="s2", number=4_417, gearbox="automatic", price=None, usual=True).known
    assert read_book(write_book(replace(DEMO, known=(known,))), "again").known == (known,)


def test_a_price_that_hangs_on_the_donor_car_is_held_for_the_donor_car() -> None:
    """Bodies are dearer for cars numbered from 4000."""
    late = DonorNumber("s1", 4_000, None)
    dearer = replace(
        DEMO.adjustments[0], id="late", when=late, lines=("body.roadster",), factor=Decimal(2), waives=False
    )
    book = replace(changed(series="s1", number=4_000, price=("GBP", 1_279_000 + 1_185_000)), adjustments=(dearer,))
    assert [one.wrong for one in held(book).values()] == [()]


WRONG = """
known x
  answer: maybe
  because: N1, Z9
  price: 12 GPB
  donor: T9-1
  gearbox: sequential
  usual: yes
  label en: X
  label de: X
  | option | choice |
  | bodi   | coupe  |
  | body   | cope   |
"""


def test_every_mistake_of_a_known_specification_is_told() -> None:
    with pytest.raises(BookMistakes) as found:
        read_book(TEXT + WRONG, "x")
    assert [(mistake.what, mistake.instead) for mistake in found.value.mistakes] == [
        ("known x takes over the usual, but does not say series and market", "add a row for each, or take “usual” out"),
        ("“maybe” is no answer", "write one of: yes, once, no"),
        ("there is no rule and no tool “Z9”", f"write one of: {', '.join(_ids()[:12])} … ({len(_ids())} in all)"),
        ("“12 GPB” is no price", "write it like 11 980 and a price list: GBP, EUR, USD"),
        ("“T9-1” is no identity number of this book", "write one of a series, as its “numbers” are written"),
        ("there is no gearbox “sequential”", "write one of: manual, automatic"),
        ("there is no option “bodi”", "did you mean “body”?"),
        ("“body” has no choice “cope”", "did you mean “coupe”?"),
    ]


def _ids() -> list[str]:
    return [*(rule.id for rule in DEMO.rules), *(tool.id for tool in DEMO.tools)]


def test_a_book_without_price_lists_is_held_too() -> None:
    known = Known("k", {}, "yes", {"a": "x"})
    option = replace(DEMO.options[0], id="a", choices=(replace(DEMO.options[0].choices[0], id="x"),))
    book = Book("b", {}, ("en",), (option,), known=(known,))
    (one,) = hold_known(book, lambda donor: prepare(book, {}, donor))
    assert (one.answer, one.wrong) == ("yes", ())
