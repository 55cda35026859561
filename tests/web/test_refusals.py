"""Every refusal has a status, and every sentence stands in every language with the same slots."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from string import Formatter

import pytest

from app.domain.despatch.despatch import Keeps
from app.domain.errors import Refusal, leaves
from app.domain.inspection.inspection import Lack
from app.domain.orders.confirming import Lacking
from app.web.addressed import TO_DEALER
from app.web.problems import BY_STATUS, status_of, told_facts
from app.wording import LANGUAGES, catalogue
from rules.inspection.subject import Told

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


def module(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


MODULES = [
    module(path) for folder in ("domain", "services", "web") for path in sorted((TOP / "app" / folder).rglob("*.py"))
]

#: Codes that are put together, by how they begin: all that can follow.
ENDINGS: dict[str, set[str]] = {
    "keeps-": {one.value for one in Keeps},
    "lacks-": {one.value for one in (*Lack, *Lacking)},
    "not-read-": {one.value for one in Told},
    "picture-": {
        *("broken", "heic", "other", "pdf", "pixels", "small"),
        *("scan-broken", "scan-locked", "scan-page", "scan-pages", "scan-slow"),
    },
    "stopped-": {"kit-short", "kit-unchecked", "part-failed", "parts", "safety", "samples", "tools"},
}


def codes_said(tree: ast.Module) -> Iterator[ast.expr]:
    """Every second argument of a Fault and every first of `code`, which carries one through a schema."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            yield from {"Fault": node.args[1:2], "code": node.args[:1]}.get(node.func.id, [])


def constants(tree: ast.Module) -> dict[str, str]:
    """What a module's own names stand for."""
    named = ((node.targets[0], node.value) for node in tree.body if isinstance(node, ast.Assign))
    return {
        target.id: value.value
        for target, value in named
        if isinstance(target, ast.Name) and isinstance(value, ast.Constant) and isinstance(value.value, str)
    }


def words_of(code: ast.expr, named: dict[str, str]) -> set[str]:
    """The codes that an expression can be; of one that is put together the beginning."""
    match code:
        case ast.Constant(value=str(word)) | ast.JoinedStr(values=[ast.Constant(value=str(word)), *_]):
            return {word}
        case ast.IfExp(body=yes, orelse=no):
            return words_of(yes, named) | words_of(no, named)
        case ast.Name(id=name) if name in named:
            return {named[name]}
    return set()


def codes_given() -> set[str]:
    """All that stand in domain, services and web."""
    said = ((code, constants(tree)) for tree in MODULES for code in codes_said(tree))
    words = {word for code, named in said for word in words_of(code, named)}
    beginnings = {word for word in words if word.endswith("-")}
    assert beginnings == set(ENDINGS)
    return (words - beginnings) | {beginning + one for beginning, ends in ENDINGS.items() for one in ends}


def test_every_code_of_a_fault_has_its_sentence() -> None:
    codes = codes_given()
    assert len(codes) > 140
    assert sorted(code for code in codes if f"fault.{code}" not in catalogue("en")) == []


def test_every_sentence_about_a_field_is_of_a_code_that_somebody_gives() -> None:
    texts = {node.value for tree in MODULES for node in ast.walk(tree) if isinstance(node, ast.Constant)}
    told = {key.removesuffix(TO_DEALER) for key in catalogue("en") if key.startswith("fault.")}
    sentences = {key.removeprefix("fault.") for key in told}
    assert sorted(sentences - codes_given() - texts) == []


def test_every_problem_is_written_down() -> None:
    text = DOCS.read_text(encoding="utf-8")
    assert [slug for slug in PROBLEMS if f"`{slug}`" not in text] == []
    assert set(BY_STATUS.values()) <= set(PROBLEMS)


@pytest.mark.parametrize(("language", "day"), [("en", "14 November 2026"), ("de", "14. November 2026")])
def test_a_day_in_a_history_is_written_as_the_reader_writes_it(language: str, day: str) -> None:
    assert told_facts({"day": "2026-11-14", "letter": "B"}, language) == {"day": day, "letter": "B"}
