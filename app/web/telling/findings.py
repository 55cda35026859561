"""What was proved of a book, in sentences for the manager. Which finding is a fault is said here; nothing is proved."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from babel.lists import format_list

from app.web.telling.speech import Speech
from app.wording import knows, say
from rules.answer import Cause
from rules.donor.identity import write_number
from rules.donor.usual import key_options, usual_specification
from rules.model import Book, Kind, Words
from rules.proof import Idle, Proof, Silent, StandardShell, Unpriced
from rules.specification import Donor

#: Findings for which the book should be mended before it is published. All others are worth knowing, and may be meant.
FAULTS = ("contradiction", "dead")

#: What a finding weighs, the gravest first. declared: it follows from a choice that the book itself declares lost.
WEIGHTS = ("fault", "look", "declared")


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding with its sentence.

    `sort`: contradiction, dead, declared, not-lost, broken, idle, silent, unpriced, idle-tool or toolless. `about`: ids
    that it names, by what they are. `causes`: sets of rules or tools. `witness`: option → choice, a whole shell.
    """

    sort: str
    sentence: str
    about: Mapping[str, Any] = field(default_factory=dict)
    causes: tuple[Cause, ...] = ()
    witness: Mapping[str, str] | None = None
    as_declared: bool = False

    @property
    def fault(self) -> bool:
        return self.sort in FAULTS

    @property
    def weight(self) -> str:
        return "fault" if self.fault else "declared" if self.as_declared else "look"


def findings(book: Book, proof: Proof, language: str) -> tuple[Finding, ...]:
    """All of them: faults first, then in the order in which a manager would mend or check them."""
    tell = _Teller(book, language)
    return (
        *tell.contradiction(proof),
        *tell.dead(proof, declared=False),
        *tell.not_lost(proof),
        *(tell.broken(shell) for shell in proof.broken),
        *(tell.idle(idle) for idle in proof.idle),
        *(tell.silent(silent) for silent in proof.silent),
        *(tell.unpriced(unpriced) for unpriced in proof.unpriced),
        *(tell.idle_tool(tool) for tool in proof.idle_tools),
        *tell.toolless(proof),
        *tell.dead(proof, declared=True),
    )


def summary(told: Iterable[Finding], language: str) -> tuple[str, str]:
    """Whether the book is sound, and how much else there is to know: a sentence for each."""
    fault = [finding.fault for finding in told]
    return (
        _counted(sum(fault), "sound", "one-fault", "faults", language),
        _counted(len(fault) - sum(fault), "no-remarks", "one-remark", "remarks", language),
    )


def example(book: Book, finding: Finding, language: str) -> str | None:
    """A witness in one sentence: which car, and in what it is not as the original was.

    None where there is no witness, or where the sentence of the finding names it already.
    """
    witness = finding.witness
    if witness is None or finding.sort in ("broken", "toolless"):
        return None
    speech, keys = Speech(book, language), key_options(book)
    usual = usual_specification(book, {key: witness[key] for key in keys}, Donor())
    other = [choice_named(speech, o, c) for o, c in witness.items() if usual[o] != c]
    shell = " · ".join(speech.label(key, witness[key]) for key in keys) or book.id
    slots = {"shell": shell, "choices": speech.list(other)}
    return say(f"proof.example{'-but' if other else ''}", language, **slots)


def choice_named(speech: Speech, option: str, choice: str) -> str:
    """Option and choice by their labels."""
    return f"{speech.option(option)}: {speech.label(option, choice)}"


def line_named(speech: Speech, line_id: str) -> str:
    """A price line: its option and choice where it is a choice's own price, else its own label."""
    line = next((line for line in speech.book.lines if line.id == line_id), None)
    if line is None:
        return _labelled(speech.book.adjustments, line_id, speech)
    if line.option and line.choice:
        return choice_named(speech, line.option, line.choice)
    return _labelled(speech.book.lines, line_id, speech)


def donor_named(book: Book, donor: Donor, language: str) -> str:
    """What tells the donor car apart; empty for one of which nothing is known."""
    series = next((one for one in book.series if one.choice == donor.series), None)
    number = "" if series is None or donor.number is None else write_number(series, donor.number)
    said = [say("proof.donor-number", language, number=number)] if number else []
    said += [gearbox_named(donor.gearbox, language)] if donor.gearbox else []
    return ", ".join(said) or (donor.series or "")


def gearbox_named(gearbox: str, language: str) -> str:
    """A gearbox in words, or as the book writes it."""
    key = f"advice.gearbox.{gearbox}"
    return say(key, language) if knows(key) else gearbox


def gate_named(book: Book, gate: str, language: str) -> str:
    """A part or an approval that a shell needs first."""
    part = Kind.PART in book.rule(gate).kinds
    return say(f"proof.{'part' if part else 'approval'}", language, rule=gate, name=Speech(book, language).name(gate))


def shell_named(book: Book, shell: StandardShell, language: str) -> str:
    """A usual specification by its series, market, body and donor."""
    speech, donor = Speech(book, language), donor_named(book, shell.donor, language)
    parts = [speech.label(option, choice) for option, choice in shell.keys.items()]
    return " · ".join([*parts, donor] if donor else parts) or book.id


def _counted(count: int, none: str, one: str, many: str, language: str) -> str:
    return say(f"proof.{none if not count else one if count == 1 else many}", language, count=count)


def _labelled(things: Iterable[Any], id_: str, speech: Speech) -> str:
    """By its label in the reader's language, else in the first it has, else its id."""
    label: Words = next((thing.label for thing in things if thing.id == id_), {})
    return label.get(speech.language) or next(iter(label.values()), id_)


class _Teller:
    """One book in one language."""

    def __init__(self, book: Book, language: str) -> None:
        self._book, self._language, self._speech = book, language, Speech(book, language)
        self._lost = {(option.id, choice.id) for option in book.options for choice in option.choices if choice.lost}

    def contradiction(self, proof: Proof) -> Iterator[Finding]:
        if proof.contradiction:
            yield self._finding("contradiction", causes=proof.contradiction)

    def dead(self, proof: Proof, *, declared: bool) -> Iterator[Finding]:
        for dead in (dead for dead in proof.dead if dead.declared is declared):
            about = {"option": dead.option, "choice": dead.choice}
            found = self._finding("declared" if declared else "dead", about, self._labels(**about), dead.causes)
            yield replace(found, as_declared=declared)

    def not_lost(self, proof: Proof) -> Iterator[Finding]:
        for found in proof.not_lost:
            about = {"option": found.option, "choice": found.choice}
            yield self._finding("not-lost", about, self._labels(**about), witness=found.witness)

    def broken(self, shell: StandardShell) -> Finding:
        """Each of the rules forbids it alone."""
        slots = {"shell": shell_named(self._book, shell, self._language)}
        causes = tuple((rule,) for rule in shell.causes)
        found = self._finding("broken", dict(shell.keys), slots, causes, shell.specification)
        return replace(found, as_declared=not self._lost.isdisjoint(shell.specification.items()))

    def idle(self, idle: Idle) -> Finding:
        way = "idle" if idle.implied_by else "idle-never" if idle.witness is None else "idle-twice"
        slots = {"name": self._rule(idle.rule)}
        return self._finding("idle", {"rule": idle.rule}, slots, idle.implied_by, idle.witness, way)

    def silent(self, silent: Silent) -> Finding:
        slots = {"name": self._silent_name(silent), "line": silent.line and line_named(self._speech, silent.line)}
        about = {"kind": silent.kind, "id": silent.id, "line": silent.line}
        return self._finding("silent", about, slots, witness=silent.witness, way=f"silent-{silent.kind}")

    def unpriced(self, unpriced: Unpriced) -> Finding:
        slots = {"name": line_named(self._speech, unpriced.line), "lists": self._speech.list(unpriced.lists)}
        about = {"line": unpriced.line, "lists": list(unpriced.lists)}
        way = "unpriced-everywhere" if unpriced.everywhere else "unpriced"
        return self._finding("unpriced", about, slots, witness=unpriced.witness, way=way)

    def idle_tool(self, tool: str) -> Finding:
        return self._finding("idle-tool", {"tool": tool}, {"name": self._speech.name(tool)})

    def toolless(self, proof: Proof) -> Iterator[Finding]:
        """One for each option: what can't break is no news choice by choice."""
        for option in dict.fromkeys(each.option for each in proof.toolless):
            those = [each for each in proof.toolless if each.option == option]
            named = self._speech.list(self._quoted(self._speech.label(option, each.choice)) for each in those)
            slots = {"option": self._speech.option(option), "choices": named}
            about = {"option": option, "choices": [each.choice for each in those]}
            yield self._finding("toolless", about, slots, witness=those[0].witness)

    def _finding(
        self,
        sort: str,
        about: Mapping[str, Any] | None = None,
        slots: Mapping[str, Any] | None = None,
        causes: tuple[Cause, ...] = (),
        witness: Mapping[str, str] | None = None,
        way: str = "",
    ) -> Finding:
        sentence = say(f"proof.finding.{way or sort}", self._language, **(slots or {}), rules=self._causes(causes))
        return Finding(sort, sentence, about or {}, causes, witness)

    def _causes(self, causes: tuple[Cause, ...]) -> str:
        """Sets of rules: A and B, or C."""
        sets = [self._speech.list(map(self._rule, cause)) for cause in causes]
        return format_list(sets, style="or", locale=self._language) if sets else ""

    def _quoted(self, name: str) -> str:
        return say("proof.quoted", self._language, name=name)

    def _rule(self, id_: str) -> str:
        name = self._speech.name(id_)
        return id_ if name == id_ else say("proof.rule", self._language, id=id_, name=name)

    def _labels(self, option: str, choice: str) -> dict[str, str]:
        return {"option": self._speech.option(option), "choice": self._speech.label(option, choice)}

    def _silent_name(self, silent: Silent) -> str:
        match silent.kind:
            case "line" | "adjustment":
                return line_named(self._speech, silent.id)
            case "addition":
                return _labelled(self._book.additions, silent.id, self._speech)
            case "standing-caution":
                return silent.id
            case "tool":
                return self._speech.name(silent.id)
            case _:
                return self._rule(silent.id)
