"""A refusal in sentences, the reader's own answers first."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from app.services.answering.advising import Refused
from app.web.telling.speech import Speech
from rules.explain.reasons import Answered
from rules.explain.refusal import Against, Given, Refusal, Sort, Told


def refusal_view(refused: Refused, language: str) -> dict[str, Any]:
    """The tree as plain data, a sentence beside each reason."""
    refusal, speech = refused.refusal, Speech(refused.book, language)
    return {
        "wish": wish_view(refusal.wish),
        "stands": refusal.stands,
        "capped": refusal.capped,
        "sentence": summary(refusal, speech),
        "reasons": [_reason(told, refusal.wish, speech) for told in refusal.reasons],
    }


def wish_view(wish: Answered | None) -> dict[str, str] | None:
    """Option and choice by name."""
    return None if wish is None else {"option": wish[0], "choice": wish[1]}


def given_view(answers: Iterable[Given]) -> list[dict[str, str]]:
    """Answers with who gave them."""
    return [{"option": each.option, "choice": each.choice, "origin": each.origin.value} for each in answers]


def against_view(against: Iterable[Against]) -> list[dict[str, str]]:
    """Rules and tools, told apart."""
    return [{"id": each.id, "sort": "tool" if each.tool else "rule"} for each in against]


def summary(refusal: Refusal, speech: Speech) -> str:
    """What the list of reasons is, in one sentence."""
    count = len(refusal.reasons)
    if refusal.stands or refusal.dead:
        return speech.say("refusal.stands" if refusal.stands else "refusal.dead")
    many = "capped" if refusal.capped else "one" if count == 1 else "several"
    return speech.say(f"refusal.{many}", count=count)


def sentence(told: Told, wish: Answered | None, speech: Speech) -> str:
    """One reason as it is read out."""
    rules, facts = speech.rules(told.against), speech.facts(told.answers)
    named = wish if told.sort is Sort.WISH or not told.answers else (told.answers[0].option, told.answers[0].choice)
    shell = "" if named is None else speech.shell(*named)
    return speech.say(f"reason.{_key(told, wish)}", facts=facts, rules=rules, shell=shell)


def _reason(told: Told, wish: Answered | None, speech: Speech) -> dict[str, Any]:
    return {
        "sort": told.sort.value,
        "answers": given_view(told.answers),
        "rules": against_view(told.against),
        "sentence": sentence(told, wish, speech),
    }


def _key(told: Told, wish: Answered | None) -> str:
    if told.sort is Sort.ANSWERS and wish is not None:
        return "apart"
    had = any(each.as_had for each in told.answers)
    return "dead-usual" if told.sort is Sort.DEAD and had else told.sort.value
