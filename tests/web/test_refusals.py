"""Every refusal has a status, and every sentence stands in every language with the same slots."""

from __future__ import annotations

import ast
import re
from pathlib import Path
from string import Formatter

import pytest

from app.domain.errors import Fault, Refusal, leaves
from app.web.problems import BY_STATUS, sentence_of, status_of, told_facts
from app.wording import LANGUAGES, catalogue

TOP = Path(__file__).resolve().parents[2]
DOCS = TOP / "docs" / "api.md"
PROBLEMS = sorted({key.split(".")[1] for key in catalogue("en") if key.startswith("problem.")})


def slots(sentence: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(sentence) if name}


@pytest.mark.parametrize("refusal", leaves(), ids=lambda refusal: refusal.__name__)
def test_every_refusal_has_a_status_and_a_text_in_every_language(refusal: type[Refusal]) -> None:
    assert 400 <= status_of(refusal) < 500
    for language in LANGUAGES:
        for part in ("title", "detail", "repair"):
            assert catalogue(language)[f"problem.{refusal.slug}.{part}"]


def test_every_language_has_the_same_sentences_with_the_same_slots() -> None:
    english = {key: slots(sentence) for key, sentence in catalogue("en").items()}
    for language in LANGUAGES:
        assert {key: slots(sentence) for key, sentence in catalogue(language).items()} == english


def test_no_sentence_is_the_same_in_two_languages() -> None:
    """Slots and brackets alone are no sentence."""
    english = catalogue("en")
    same = [key for key, sentence in catalogue("de").items() if sentence == english[key]]
    assert [key for key in same if re.search(r"\w", re.sub(r"{\w+}", "", english[key]))] == []


def listed_codes() -> list[str]:
    listed = re.search(r"Codes: (.*?)\.", Fault.__doc__ or "", re.S)
    assert listed is not None
    return [code.strip() for code in listed[1].replace("\n", " ").split(",")]


def test_every_code_of_a_fault_has_its_sentence() -> None:
    codes = listed_codes()
    assert len(codes) > 10
    assert [code for code in codes if sentence_of(Fault("x", code), "en") == catalogue("en")["fault.invalid"]] == []


def written_codes() -> set[str]:
    """What stands as the second argument of a Fault somewhere in domain or services."""
    files = (file for folder in ("domain", "services") for file in (TOP / "app" / folder).glob("*.py"))
    nodes = (node for file in files for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))))
    called = (node for node in nodes if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Fault")
    return {str(code.value) for node in called for code in node.args[1:2] if isinstance(code, ast.Constant)}


def test_every_code_that_a_service_gives_is_listed_once_and_in_order() -> None:
    codes = listed_codes()
    assert codes == sorted(set(codes))
    assert sorted(written_codes() - set(codes) - {"invalid"}) == []


def test_every_problem_is_written_down() -> None:
    text = DOCS.read_text(encoding="utf-8")
    assert [slug for slug in PROBLEMS if f"`{slug}`" not in text] == []
    assert set(BY_STATUS.values()) <= set(PROBLEMS)


@pytest.mark.parametrize(("language", "day"), [("en", "14 November 2026"), ("de", "14. November 2026")])
def test_a_day_in_a_history_is_written_as_the_reader_writes_it(language: str, day: str) -> None:
    assert told_facts({"day": "2026-11-14", "letter": "B"}, language) == {"day": day, "letter": "B"}
