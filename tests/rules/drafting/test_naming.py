"""What a text declares, with its labels: what lists of choices, rules and stages are filled from."""

from __future__ import annotations

from rules.drafting import Entry, sheet_of
from rules.drafting.naming import Named, call, called, declared
from rules.drafting.sheet import Sheet
from tests.rules.demo_book import FILE, whole

SHEET = sheet_of(FILE.read_text("utf-8"))
DECLARED = declared(SHEET)
BOOK = whole()


def small(text: str) -> Sheet:
    return sheet_of(f"book b\n  languages: en, de\n{text}")


def test_every_option_is_declared_with_its_choices_as_the_reader_has_them() -> None:
    told = {
        one.id: (dict(one.label), {part.id: dict(part.label) for part in one.parts}) for one in DECLARED.of["option"]
    }
    assert told == {
        option.id: (dict(option.label), {choice.id: dict(choice.label) for choice in option.choices})
        for option in BOOK.options
    }


def test_rules_tools_and_stages_are_declared_in_written_order_and_have_no_parts() -> None:
    for kind, known in (("rule", BOOK.rules), ("tool", BOOK.tools), ("stage", BOOK.stages)):
        assert [one.id for one in DECLARED.of[kind]] == [one.id for one in known]
        assert {one.parts for one in DECLARED.of[kind]} == {()}


def test_what_stands_in_tables_is_declared_row_by_row() -> None:
    assert [(one.id, one.label["de"]) for one in DECLARED.of["list"]] == [
        (one.id, one.label["de"]) for one in BOOK.lists
    ]
    assert [one.id for one in DECLARED.of["group"]] == [one.id for one in BOOK.groups]


def test_the_book_s_own_block_gives_languages_gearboxes_and_roles() -> None:
    assert DECLARED.languages == ("en", "de")
    assert DECLARED.gearboxes == ("manual", "automatic")
    assert DECLARED.roles == {role.value: option for role, option in BOOK.roles.items()}


def test_a_text_without_a_book_block_declares_what_it_has() -> None:
    found = declared(sheet_of("option a\n  label en: A\n"))
    assert (found.languages, found.gearboxes, found.roles) == ((), (), {})
    assert found.of == {"option": (Named("a", {}),)}


def test_a_block_without_a_name_and_a_row_that_does_not_fit_declare_nothing() -> None:
    found = declared(small("option\n  label en: A\ngroups\n  | group | en |\n  | one | One |\n  | two |\n"))
    assert found.of["group"] == (Named("one", {"en": "One"}),)
    assert "option" not in found.of


def test_an_empty_cell_is_no_label() -> None:
    found = declared(small("option a\n  label de: A\n  | choice | en | de |\n  | x | | X |\n"))
    assert found.of["option"] == (Named("a", {"de": "A"}, (Named("x", {"de": "X"}),)),)


def test_ids_are_declared_by_their_own_column_wherever_it_stands() -> None:
    found = declared(small("groups\n  | en | group |\n  | One | one |\noption a\n  | en | choice |\n  | X | x |\n"))
    assert found.of["group"] == (Named("one", {"en": "One"}),)
    assert found.of["option"] == (Named("a", {}, (Named("x", {"en": "X"}),)),)


def test_a_rule_is_called_by_its_title_and_one_without_by_its_reason() -> None:
    titled, plain = "rule r\n  reason en: R\n  title en: T\n", "rule r\n  reason en: R\n  reason de: G\n"
    (piece,) = sheet_of(titled).pieces
    assert call(piece, ("en", "de")) == ("rule", "r", {"en": "T"})
    (piece,) = sheet_of(plain).pieces
    assert call(piece, ("en", "de")) == ("rule", "r", {"en": "R", "de": "G"})


def test_a_change_is_called_by_what_it_says_and_nothing_by_nothing() -> None:
    assert called(Entry("series", "s1", (("changes en", "C"),)), ("en",)) == {"en": "C"}
    assert called(Entry("caution", "c", (("text en", "Mind."),)), ("en", "de")) == {"en": "Mind."}
    assert called(Entry("caution", "c"), ("en",)) == {}
