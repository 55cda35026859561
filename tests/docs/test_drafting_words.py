"""Whatever a form of the rule book can hold has a name on the screen, in every language."""

from __future__ import annotations

import re

import pytest

from rules.drafting.forms import FORMS
from tests.support.product import TOP

#: Columns that are called by the book's own words: its languages, lists and options.
OWN = ("languages", "lists", "options")


@pytest.mark.parametrize("language", ["en", "de"])
def test_every_kind_of_block_every_field_and_every_column_has_a_name(language: str) -> None:
    text = (TOP / "frontend" / "words" / f"drafting.{language}.js").read_text(encoding="utf-8")
    said = set(re.findall(r"^  'drafting\.([^']+)': ", text, re.MULTILINE))
    forms = FORMS.values()
    kinds = {f"{part}.{form.kind}" for form in forms for part in ("block", "kind-of")}
    speaking = {f"kind.{field.name}" for form in forms for field in form.fields if field.speaks}
    fields = {f"field.{field.name}" for form in forms for field in form.fields if not field.speaks}
    tables = [form.table.columns for form in forms if form.table]
    columns = {f"column.{column.split()[0]}" for table in tables for column in table if column not in OWN}
    assert sorted({*kinds, *speaking, *fields, *columns} - said) == []
