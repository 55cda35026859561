"""The fields of one block, taken by name. What a block may not have, has twice or lacks becomes a mistake here."""

from __future__ import annotations

import re
from collections.abc import Iterable
from difflib import get_close_matches

from rules.model import Place
from rules.reading.blocks import Block, Field
from rules.reading.mistakes import Ledger, listed, offer, sentence, shown
from rules.reading.values import yes_or_no
from rules.wordings import unfilled

ID = re.compile(r"[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*", re.ASCII)
LONGEST_ID = 60
_PLACEHOLDER = re.compile(r"\{[^{}]*\}")


class Fields:
    """One block's fields. `plain` are the names it may have, `worded` those it has once in each language."""

    def __init__(
        self, block: Block, ledger: Ledger, languages: tuple[str, ...], plain: Iterable[str], worded: Iterable[str] = ()
    ) -> None:
        self.block, self.ledger, self.languages = block, ledger, languages
        self._known = (*plain, *(f"{name} {language}" for name in worded for language in languages))
        self._found: dict[str, Field] = {}
        for field in block.fields:
            self._keep(field)
        for field in block.fields:
            self._adopt(field)

    @property
    def name(self) -> str:
        """The block's head as written: “rule N2”."""
        return " ".join((self.block.kind, *self.block.words))

    @property
    def place(self) -> Place:
        """Where the block stands."""
        return Place(self.ledger.file, self.block.line)

    def has(self, name: str) -> bool:
        """Whether the block has the field, even an empty one."""
        return name in self._found

    def get(self, name: str) -> Field | None:
        """The field where it has a value; an empty one is a mistake."""
        field = self._found.get(name)
        if field is not None and not field.value:
            self.ledger.add(
                field.line, sentence("“{name}:” has no value", name=name), sentence("write one, or take the line out")
            )
            return None
        return field

    def need(self, name: str, example: str) -> Field | None:
        """The field; a mistake where it is missing."""
        if name not in self._found and self._excused(name):
            return None
        if name not in self._found:
            self.ledger.add(
                self.block.line,
                sentence("{name} has no “{field_name}”", name=self.name, field_name=name),
                sentence("add a line like “{name}: {example}”", name=name, example=example),
            )
            return None
        return self.get(name)

    def words(self, name: str, needed: bool = True, slots: tuple[str, ...] | None = None) -> dict[str, str]:
        """language → text of the fields `name en`, `name de` …; all of them or, where not needed, none.

        `slots`: what the text can name in braces; None: nothing fills any.
        """
        names = {language: f"{name} {language}" for language in self.languages}
        present = {language: self.get(n) for language, n in names.items() if n in self._found}
        if needed or present:
            self._missing(names, present)
        for field in filter(None, present.values()):
            check_braces(field.value, field.name, field.line, self.ledger, slots)
        return {language: field.value for language, field in present.items() if field is not None}

    def yes(self, name: str) -> bool:
        """Whether the field says yes; it may be left out."""
        field = self.get(name)
        return field is not None and yes_or_no(field.value, field.line, self.ledger)

    def no_table(self) -> None:
        """A mistake where the block has a table all the same."""
        if self.block.rows:
            self.ledger.add(
                self.block.rows[0].line,
                sentence("{name} takes no table", name=self.name),
                sentence("take the table out"),
            )

    def _missing(self, names: dict[str, str], present: dict[str, Field | None]) -> None:
        for language, field_name in names.items():
            if language not in present and not self._excused(field_name):
                instead = sentence("add a line “{field_name}: …”", field_name=field_name)
                self.ledger.add(
                    self.block.line,
                    sentence("{name} has no “{field_name}”", name=self.name, field_name=field_name),
                    instead,
                )

    def _keep(self, field: Field) -> None:
        if field.name in self._known and self._found.setdefault(field.name, field) is not field:
            what = sentence(
                "“{name}:” stands here twice, first on line {line}", name=field.name, line=self._found[field.name].line
            )
            self.ledger.add(field.line, what, sentence("take one of them out"))

    def _adopt(self, field: Field) -> None:
        """Report an unknown field, and read it as the one it is nearest to, so that none seems missing as well."""
        if field.name in self._known:
            return
        free = tuple(name for name in self._known if name not in self._found)
        near = get_close_matches(field.name, free, n=1)
        instead = offer(field.name, free if near else self._known)
        self.ledger.add(
            field.line,
            sentence("{name} takes no “{field_name}”", name=self.name, field_name=shown(field.name)),
            instead,
        )
        if near:
            self._found[near[0]] = field

    def _excused(self, name: str) -> bool:
        """Whether a line that could not be read, and is reported, was meant to be this field."""
        return any(line.startswith(name) for line in self.block.broken)


def check_braces(text: str, name: str, line: int, ledger: Ledger, slots: tuple[str, ...] | None) -> None:
    """A mistake where braces hold what nothing fills; without `slots` they would be printed as they stand."""
    if slots is None:
        no_placeholder(text, name, line, ledger)
    elif stray := unfilled(text, slots):
        instead = sentence("write the words, or take the braces out")
        if slots:
            known = listed(f"{{{slot}}}" for slot in slots)
            instead = sentence("name one of {known}, or take the braces out", known=known)
        ledger.add(line, sentence("nothing fills “{found}” in “{name}”", found=shown(stray), name=name), instead)


def no_placeholder(text: str, name: str, line: int, ledger: Ledger) -> None:
    """A mistake where a text for readers has braces: they would be printed as they stand."""
    if found := _PLACEHOLDER.search(text):
        instead = sentence("write the words themselves, or take the braces out")
        ledger.add(line, sentence("nothing fills “{found}” in “{name}”", found=shown(found[0]), name=name), instead)


def id_of(block: Block, ledger: Ledger) -> str | None:
    """The id on a block's head line; a mistake where there is none, or more than one word."""
    if len(block.words) == 1 and proper(block.words[0]):
        return block.words[0]
    what = sentence(
        "“{kind}” does not name one {kind_2}", kind=shown(" ".join((block.kind, *block.words))), kind_2=block.kind
    )
    ledger.add(
        block.line, what, sentence("write “{kind} some-name”: one word of letters, digits and hyphens", kind=block.kind)
    )
    return None


def nameless(block: Block, ledger: Ledger) -> None:
    """A mistake where the head line of a block that has no id names one."""
    if block.words:
        ledger.add(
            block.line,
            sentence("“{kind}” takes no name", kind=block.kind),
            sentence("write “{kind}” alone on its line", kind=block.kind),
        )


def check_proper(word: str, called: str, line: int, ledger: Ledger) -> None:
    """A mistake where a word can't be an id."""
    if not proper(word):
        ledger.add(
            line,
            sentence("“{word}” can't name a {called}", word=shown(word), called=called),
            sentence("write one word of letters, digits and hyphens"),
        )


def proper(word: str) -> bool:
    """Whether a word can be an id."""
    return len(word) <= LONGEST_ID and ID.fullmatch(word) is not None


def parts_of(text: str) -> list[str]:
    """The parts of a list with commas."""
    return [part.strip() for part in text.split(",") if part.strip()]
