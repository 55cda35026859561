"""What a form offers is what the reader takes, kind by kind and field by field."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from rules.drafting import entry_of, sheet_of
from rules.drafting.forms import FORMS, Form, Sort
from rules.reading import BookMistakes, read_book
from rules.reading.assembly import KINDS, ONCE

TEXT = (Path(__file__).parents[3] / "demo" / "skerry.book").read_text(encoding="utf-8")


def test_every_kind_of_block_has_a_form_and_no_other() -> None:
    assert set(FORMS) == set(KINDS)
    assert {kind for kind, form in FORMS.items() if form.once} == set(ONCE)


def _names(form: Form) -> set[str]:
    """With both orders of two kinds that a rule may be at once: the form offers one of them."""
    worded = [(field, code) for field in form.fields for code in ("en", "de") if field.sort is Sort.WORDS]
    plain = {field.name for field in form.fields if field.sort is not Sort.WORDS}
    turned = {" and ".join(reversed(name.split(" and "))) for name in plain}
    return {*plain, *turned, *(f"{field.name} {code}" for field, code in worded)}


@pytest.mark.parametrize("form", FORMS.values(), ids=lambda form: form.kind)
def test_the_reader_takes_every_field_of_a_form_and_has_no_other(form: Form) -> None:
    fields = "".join(f"  {name}: en\n" for name in (*sorted(_names(form)), "qqqqqq"))
    head = "" if form.kind == "book" else "book b\n  languages: en, de\n"
    with pytest.raises(BookMistakes) as found:
        read_book(f"{head}{form.kind} x\n{fields}".replace("languages: en\n", "languages: en, de\n"), "x")
    refused = [mistake for mistake in found.value.mistakes if " takes no “" in mistake.what]
    assert [mistake.what.split("takes no ")[1] for mistake in refused] == ["“qqqqqq”"]
    _offers(refused[0].instead, _names(form))


@pytest.mark.parametrize("form", FORMS.values(), ids=lambda form: form.kind)
def test_a_form_asks_for_each_field_that_the_reader_asks_for_and_for_no_other(form: Form) -> None:
    """A customer's part to keep is needed either always when its rule bites (`with`) or `when` something holds."""
    with pytest.raises(BookMistakes) as found:
        read_book(
            "book b\n  languages: en\n" if form.kind == "book" else f"book b\n  languages: en\n{form.kind} x\n", "x"
        )
    said = re.compile(rf"{form.kind} \w+ has no “(.+?)( en)?”")
    asked = {match[1] for mistake in found.value.mistakes if (match := said.fullmatch(mistake.what))}
    given = {"languages"} if form.kind == "book" else set()
    assert asked - ({"when"} if form.kind == "keep" else set()) == {f.name for f in form.fields if f.needed} - given


@pytest.mark.parametrize("form", FORMS.values(), ids=lambda form: form.kind)
def test_a_form_has_a_table_where_the_reader_takes_one_and_a_name_where_it_takes_one(form: Form) -> None:
    def what(text: str) -> list[str]:
        with pytest.raises(BookMistakes) as found:
            read_book(f"book b\n  languages: en\n{text}", "x")
        return [mistake.what for mistake in found.value.mistakes]

    if form.kind != "book":
        assert (f"“{form.kind}” takes no name" in what(f"{form.kind} x\n")) is not form.named
        refused = [said for said in what(f"{form.kind} x\n  | a |\n  | b |\n") if "takes no table" in said]
        assert (refused == []) is (form.table is not None)


def _offers(instead: str, names: set[str]) -> None:
    """The sentence names them all, or where there are too many says how many."""
    if instead.endswith(" in all)"):
        assert instead.endswith(f"({len(names)} in all)")
    else:
        assert set(instead.removeprefix("write one of: ").split(", ")) == names or not names


def test_every_table_of_the_demo_book_has_the_columns_of_its_form() -> None:
    for piece in sheet_of(TEXT).pieces:
        entry = entry_of(piece)
        table = FORMS[entry.kind].table
        assert (table is not None) or not entry.rows
        if table is not None and entry.rows:
            fixed = [column for column in table.columns if " " not in column and column not in
                     ("languages", "lists", "options")]  # fmt: skip
            assert list(entry.rows[0][: len(fixed)]) == fixed or not fixed
