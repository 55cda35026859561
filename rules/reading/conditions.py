"""The little language of conditions: text → `rules.condition`. Words only; whether they are known is asked of `Names`.

    option is choice [or choice …] · option is not choice · option is usual · option is not usual · always
    donor series is s2 [or s3 …] · donor number s2 from 06201 [to 21300] · donor gearbox is automatic
    series is the donor's · series is not the donor's · … and … · … or … · not ( … ) · ( … )

`and` beside `or` without brackets is a mistake: two readers would read it two ways.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from rules.condition import (
    ALWAYS,
    All,
    Any,
    Condition,
    DonorGearbox,
    DonorNumber,
    DonorSeries,
    Is,
    IsUsual,
    Not,
    SeriesAsDonor,
)
from rules.reading.blocks import Field
from rules.reading.mistakes import Ledger, Sentence, sentence, shown
from rules.reading.names import Names

DEEPEST = 40
_Check = Callable[[str, int, Ledger], bool]
_TOKEN = re.compile(r"[A-Za-z0-9]+(?:[-'’][A-Za-z0-9]+)*|[()]|\S", re.ASCII)
_EXAMPLE = sentence("write it like “bumpers is impact and body is not coupe”")


@dataclass(frozen=True, slots=True)
class Token:
    text: str
    line: int


class _Wrong(Exception):
    """The condition can't be read on; its mistake is noted."""


def condition_of(field: Field, names: Names, ledger: Ledger) -> Condition | None:
    """The condition that a field's value says; None after a mistake."""
    return _condition(
        [Token(t, n) for n, text in field.pieces for t in _TOKEN.findall(text)], field.line, names, ledger
    )


def condition_in(text: str, line: int, names: Names, ledger: Ledger) -> Condition | None:
    """The condition in one cell of a table; None after a mistake."""
    return _condition([Token(t, line) for t in _TOKEN.findall(text)], line, names, ledger)


def _condition(tokens: list[Token], line: int, names: Names, ledger: Ledger) -> Condition | None:
    before = len(ledger.found)
    reader = _Reader(tokens, line, names, ledger)
    try:
        condition = reader.whole()
    except _Wrong:
        return None
    return condition if len(ledger.found) == before else None


class _Reader:
    """Walks the tokens once, left to right."""

    def __init__(self, tokens: list[Token], line: int, names: Names, ledger: Ledger) -> None:
        self.tokens, self.line, self.names, self.ledger = tokens, line, names, ledger
        self.at = 0
        self.depth = 0

    def whole(self) -> Condition:
        condition = self._joined()
        if self.at < len(self.tokens):
            self._wrong(
                sentence("“{next}” can't follow here", next=shown(self._next())),
                sentence("join conditions with “and” or “or”"),
            )
        return condition

    def _joined(self) -> Condition:
        """Conditions joined by `and` alone or by `or` alone."""
        start, line = self.at, self._line()
        parts, joints, spans = [self._one()], [], [(start, self.at)]
        while self._next() in ("and", "or"):
            joints.append(self._take())
            begin = self.at
            parts.append(self._one())
            spans.append((begin, self.at))
        if len(set(joints)) > 1:
            said = [self._said(*span) for span in spans]
            self.ledger.add(
                line, sentence("“and” and “or” stand side by side without brackets"), _brackets(said, joints)
            )
        if not joints:
            return parts[0]
        return All(tuple(parts)) if joints[0] == "and" else Any(tuple(parts))

    def _one(self) -> Condition:
        match self._next():
            case "(":
                return self._bracketed()
            case "not":
                self._take()
                return Not(self._negated())
            case "always":
                self._take()
                return ALWAYS
            case "donor":
                self._take()
                return self._donor()
            case _:
                return self._option()

    def _negated(self) -> Condition:
        if self._next() != "(":
            self._wrong(
                sentence("“not” stands before no bracket"), sentence("write “not ( … )”, or “option is not choice”")
            )
        return self._bracketed()

    def _bracketed(self) -> Condition:
        self.depth += 1
        if self.depth > DEEPEST:
            self._wrong(
                sentence("brackets stand more than {deepest} deep", deepest=DEEPEST),
                sentence("divide the condition into several rules"),
            )
        self._take()
        inner = self._joined()
        if self._next() != ")":
            self._wrong(sentence("a bracket is not closed"), sentence("add “)” where it ends"))
        self._take()
        self.depth -= 1
        return inner

    def _option(self) -> Condition:
        line, option = self._line(), self._word("an option")
        known = self.names.check_option(option, line, self.ledger)
        self._expect("is", sentence("“{option}” is followed by no “is”", option=option))
        negated = self._skip("not")
        if self._skip("usual"):
            found: Condition = self._as_usual(option, line)
        elif self._skip("the"):
            found = self._as_donor(option, line)
        else:
            found = Is(option, self._choices(option if known else None))
        return Not(found) if negated else found

    def _as_usual(self, option: str, line: int) -> Condition:
        if option in self.names.key_options:
            what = sentence("“{option}” decides what is usual, so it is always usual itself", option=option)
            self.ledger.add(line, what, sentence("name its choices: “{option} is …”", option=option))
        return IsUsual(option)

    def _as_donor(self, option: str, line: int) -> Condition:
        if self._next().replace("’", "'") != "donor's":
            self._wrong(sentence("“the” is not followed by “donor's”"), sentence("write “series is the donor's”"))
        self._take()
        series = self.names.series_option
        if series is None:
            self.ledger.add(
                line, sentence("no option plays the series"), sentence("add a line “series: some-option” below “roles”")
            )
        elif option != series:
            self.ledger.add(
                line,
                sentence("“{option}” can't be the donor's", option=option),
                sentence("only the series can: “{series} is the donor's”", series=series),
            )
        return SeriesAsDonor()

    def _choices(self, option: str | None) -> frozenset[str]:
        found = [self._choice(option)]
        while self._next() == "or" and not self._begins(self.at + 1):
            self._take()
            found.append(self._choice(option))
        return frozenset(found)

    def _choice(self, option: str | None) -> str:
        line, word = self._line(), self._word("a choice")
        if option is not None:
            self.names.check_choice(option, word, line, self.ledger)
        return word

    def _begins(self, at: int) -> bool:
        """Whether a condition, rather than one more choice, begins at a token."""
        ahead = [token.text for token in self.tokens[at : at + 2]]
        return bool(ahead) and (ahead[0] in ("(", "not", "donor", "always") or ahead[1:] == ["is"])

    def _donor(self) -> Condition:
        line, fact = self._line(), self._word("series, number or gearbox")
        match fact:
            case "series":
                return self._donor_words(self.names.check_series, DonorSeries)
            case "gearbox":
                return self._donor_words(self.names.check_gearbox, DonorGearbox)
            case "number":
                return self._donor_number()
        self.ledger.add(
            line,
            sentence("nothing is known of a donor's “{fact}”", fact=shown(fact)),
            sentence("write donor series, donor number or donor gearbox"),
        )
        raise _Wrong

    def _donor_words(self, check: _Check, made: type[DonorSeries] | type[DonorGearbox]) -> Condition:
        self._expect("is", sentence("“donor …” is followed by no “is”"))
        negated = self._skip("not")
        found = [self._checked(check)]
        while self._next() == "or" and not self._begins(self.at + 1):
            self._take()
            found.append(self._checked(check))
        return Not(made(frozenset(found))) if negated else made(frozenset(found))

    def _checked(self, check: _Check) -> str:
        line, word = self._line(), self._word("a name")
        check(word, line, self.ledger)
        return word

    def _donor_number(self) -> Condition:
        line, series = self._line(), self._checked(self.names.check_series)
        low = self._digits() if self._skip("from") else None
        high = self._digits() if self._skip("to") else None
        if low is None and high is None:
            self._wrong(
                sentence("“donor number” names no numbers"),
                sentence("write “donor number {series} from 00001 to 06200”", series=series),
            )
        self.names.check_numbers(series, low, high, line, self.ledger)
        return DonorNumber(series, low, high)

    def _digits(self) -> int:
        word = self._word("a number")
        if not re.fullmatch(r"\d{1,9}", word, re.ASCII):
            self._wrong(
                sentence("“{word}” is no identity number", word=shown(word)),
                sentence("write its digits only, like 06200"),
            )
        return int(word)

    def _next(self) -> str:
        return self.tokens[self.at].text if self.at < len(self.tokens) else ""

    def _line(self) -> int:
        return (
            self.tokens[self.at].line
            if self.at < len(self.tokens)
            else (self.tokens[-1].line if self.tokens else self.line)
        )

    def _take(self) -> str:
        self.at += 1
        return self.tokens[self.at - 1].text

    def _skip(self, word: str) -> bool:
        here = self._next() == word
        self.at += here
        return here

    def _word(self, wanted: str) -> str:
        word = self._next()
        if not word or not word[0].isalnum() or word in ("and", "or", "is", "not"):
            self._wrong(
                sentence("“{word}” stands where {wanted} should", word=shown(word), wanted=wanted)
                if word
                else sentence("the condition ends where {wanted} should", wanted=wanted),
                _EXAMPLE,
            )
        return self._take()

    def _expect(self, word: str, what: Sentence) -> None:
        if not self._skip(word):
            self._wrong(what, _EXAMPLE)

    def _said(self, start: int, end: int) -> str:
        text = " ".join(token.text for token in self.tokens[start:end])
        return text.replace("( ", "(").replace(" )", ")")

    def _wrong(self, what: Sentence, instead: Sentence) -> None:
        self.ledger.add(self._line(), what, instead)
        raise _Wrong


def _brackets(said: list[str], joints: list[str]) -> Sentence:
    """Both ways of setting the brackets."""
    one, other = (_grouped(said, joints, joint) for joint in ("and", "or"))
    return sentence("write “{one}” or “{other}”, whichever is meant", one=one, other=other)


def _grouped(said: list[str], joints: list[str], tight: str) -> str:
    """The conditions with those that `tight` joins in brackets."""
    runs = [[said[0]]]
    for joint, text in zip(joints, said[1:], strict=True):
        if joint == tight:
            runs[-1].append(text)
        else:
            runs.append([text])
    loose = "or" if tight == "and" else "and"
    return f" {loose} ".join(f" {tight} ".join(run) if len(run) == 1 else f"({f' {tight} '.join(run)})" for run in runs)
