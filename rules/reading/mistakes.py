"""Mistakes in a rule book: where each stands, what is wrong and what to write instead.

A mistake is collected, not raised, so that one reading names them all. Nothing here knows what a book contains. It is
told in English, and keeps the sentence it was made of and the facts in it: other languages are told outside.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches

#: After so many mistakes reading stops: the text is most likely no rule book at all.
MOST_MISTAKES = 500


class Sentence(str):
    """An English sentence that knows the `template` it was made of and the `facts` that fill its slots.

    A fact that is one itself stands within it; any other is the book's own word, a word of ours, or a figure.
    """

    __slots__ = ("facts", "template")

    template: str
    facts: Mapping[str, object]


def sentence(template: str, /, **facts: object) -> Sentence:
    """The sentence that the facts make of a template; KeyError where one is missing."""
    made = Sentence(template.format_map(facts))
    made.template, made.facts = template, facts
    return made


@dataclass(frozen=True, slots=True, order=True)
class Mistake:
    """`line` counts from 1; `what` is wrong; `instead` says what to write."""

    file: str
    line: int
    what: Sentence
    instead: Sentence

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.what}: {self.instead}"


class BookMistakes(Exception):
    """The text is no rule book yet; `mistakes` are all that were found, in the order of the text."""

    def __init__(self, mistakes: tuple[Mistake, ...]) -> None:
        super().__init__("\n".join(str(mistake) for mistake in mistakes))
        self.mistakes = mistakes


class Enough(Exception):
    """So many mistakes that going on helps nobody."""


@dataclass
class Ledger:
    """The mistakes found so far in one file. `published`: it is in force or was, and no longer asked to be clearer."""

    file: str
    published: bool = False
    found: list[Mistake] = field(default_factory=list)

    def add(self, line: int, what: Sentence, instead: Sentence) -> None:
        """Note a mistake; Enough after MOST_MISTAKES of them."""
        mistake = Mistake(self.file, line, what, instead)
        if mistake not in self.found:
            self.found.append(mistake)
        if len(self.found) >= MOST_MISTAKES:
            raise Enough

    def unknown(self, line: int, what: str, word: str, known: Iterable[str]) -> None:
        """Note that `word` is no known `what` (“option”, “stage” …) and offer the nearest one that is."""
        self.add(line, sentence("there is no {what} “{word}”", what=what, word=shown(word)), offer(word, tuple(known)))

    def refuse(self) -> None:
        """Raise BookMistakes where a mistake was found."""
        if self.found:
            raise BookMistakes(tuple(sorted(self.found)))


def offer(word: str, known: tuple[str, ...]) -> Sentence:
    """The sentence that offers the nearest known word, or a few of them."""
    near = get_close_matches(word.lower()[:80], {k.lower(): k for k in known}, n=1, cutoff=0.6)
    if near:
        return sentence("did you mean “{word}”?", word=next(k for k in known if k.lower() == near[0]))
    if not known:
        return sentence("none is declared yet: declare it first, or take this out")
    return sentence("write one of: {words}", words=listed(known))


def listed(words: Iterable[str], most: int = 12) -> str:
    """The words with commas, the long list cut short."""
    every = tuple(words)
    first = ", ".join(every[:most])
    return first if len(every) <= most else sentence("{first} … ({count} in all)", first=first, count=len(every))


def joined(words: Sequence[str]) -> str:
    """The words with *and* between them."""
    first, *others = words
    for word in others:
        first = sentence("{before} and {last}", before=first, last=word)
    return first


def shown(text: str, most: int = 60) -> str:
    """A piece of the reader's text, short enough for a message."""
    return text if len(text) <= most else text[: most - 1] + "…"
