"""Says the ids of one paper in its reader's language: the book's words, the paper's sentences, figures by locale."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from app.documents.contents import QuotationPaper, ShellLine, Units
from app.documents.saying.figures import Figures
from app.documents.saying.phrases import sentences
from rules.lengths import with_lengths
from rules.model import Book, Role, Words
from rules.wordings import wording_of

#: What a shell is told by, in a few words.
_TOLD = (Role.SERIES, Role.BODY, Role.STEERING, Role.MARKET)


@dataclass(frozen=True, slots=True)
class Voice:
    """One book, one language, one locale and currency."""

    book: Book
    language: str
    figures: Figures

    def say(self, key: str, **slots: object) -> str:
        """The paper's sentence, or the book's in its place; KeyError names a sentence or slot that is missing."""
        own = self.book.wording(wording_of(key), self.language)
        return (sentences(self.language)[key] if own is None else own).format_map(slots)

    def words(self, words: Words) -> str:
        """Words of the book or of the firm; KeyError where this language is missing: nothing goes out untranslated."""
        return words[self.language]

    def measured(self, words: Words, units: Units) -> str:
        """The same with the lengths in them as the reader has them."""
        return with_lengths(self.words(words), lambda mm: self.length(mm, units))

    def length(self, mm: Decimal, units: Units) -> str:
        """As in *2 mm*; for whoever reads inches with these beside it."""
        return self.figures.length(mm, units is Units.BOTH)

    def option(self, option: str) -> str:
        return self.words(self.book.option(option).label)

    def choice(self, option: str, choice: str) -> str:
        return self.words(self.book.option(option).choice(choice).label)

    def reason(self, rule: str) -> str:
        """The reason a customer reads; a lost tool speaks under its own id."""
        tools = {tool.id: tool.reason for tool in self.book.tools}
        return self.words(tools[rule] if rule in tools else self.book.rule(rule).reason)

    def caution(self, caution: str) -> str:
        """A standing caution of the book."""
        return self.words(next(c.text for c in self.book.cautions if c.id == caution))

    def tool(self, tool: str) -> str:
        return self.words(next(t.label for t in self.book.tools if t.id == tool))

    def stage(self, stage: str | None) -> str:
        """The stage's name; a dash for a rule that names none."""
        return next((self.words(s.label) for s in self.book.stages if s.id == stage), "–")

    def shell(self, shell: ShellLine) -> str:
        """A shell in a few words: series, body, steering, market."""
        return self.told(shell.settled)

    def told(self, settled: Mapping[str, str], roles: Iterable[Role] = _TOLD) -> str:
        """What is settled of the options that play these roles."""
        options = [self.book.roles[role] for role in roles if role in self.book.roles]
        return " · ".join(self.choice(option, settled[option]) for option in options if option in settled)

    def ordered_series(self, shell: ShellLine) -> str:
        """The ordered series in the book's words; empty while it is open."""
        option = self.book.roles.get(Role.SERIES, "")
        return self.choice(option, shell.settled[option]) if option in shell.settled else ""

    def series(self, series: str) -> str:
        return self.choice(self.book.roles[Role.SERIES], series)

    def role_choice(self, role: str, choice: str) -> str:
        """A choice of the option that plays this role."""
        return self.choice(self.book.roles[Role(role)], choice)

    def gearbox(self, gearbox: str) -> str:
        """A gearbox in words; one that the papers have no word for stays as the book writes it."""
        return sentences(self.language).get(f"gearbox.{gearbox}", gearbox)

    def line(self, line: str) -> str:
        """A price line: its option and choice where it is a choice's own price, else its own label."""
        entry = next(entry for entry in self.book.lines if entry.id == line)
        if entry.option and entry.choice:
            slots = {"option": self.option(entry.option), "choice": self.choice(entry.option, entry.choice)}
            return self.say("price.choice", **slots)
        return self.words(entry.label)

    def extra_label(self, extra: str) -> str:
        return self.words(next(e.label for e in self.book.extras if e.id == extra))

    def unpriced(self, paper: QuotationPaper) -> list[str]:
        """What has no price on the list, in words, each once."""
        lines = [line for shell in paper.shells if shell.price for line in shell.price.shell.unpriced]
        extras = [extra.extra for extra in paper.extras if extra.net is None]
        return list(dict.fromkeys([*map(self.line, lines), *map(self.extra_label, extras)]))


def voice_of(paper: QuotationPaper) -> Voice:
    """The voice in which this paper speaks."""
    return Voice(paper.book, paper.language, Figures(paper.locale, paper.currency))
