"""What a mistake is called and how it is mended, to the letter: a book's author has nothing else to go by.

The texts stand in `mistakes_said.txt` beside this file, one mistake a line. Whoever means to change one writes the file
anew (`python -m tests.rules.reading.test_mistakes_said > …/mistakes_said.txt`) and reads the difference.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

from rules.reading import BookMistakes, Mistake, read_book
from tests.rules.reading.test_mistakes import CHANGES, MANY, SOUND

SAID = Path(__file__).with_name("mistakes_said.txt")

#: The labels of what is only there for another mistake.
D = "  label en: D\n  label de: D"


def _another(block: str) -> tuple[str, str]:
    """One more block, before the last."""
    return "tool jig", f"{block}\ntool jig"


#: More changes to the sound book, whose texts alone matter: what is replaced, by what.
MORE = [
    ("| structure | Structure |", "| struc! | Structure |"),
    ("| roadster | Roadster |", "| open | Roadster |"),
    ("| roadster | Roadster |", "| is | Roadster |"),
    ("| roadster | Roadster |", "| road! | Roadster |"),
    ("| coupe | Coupé |", "| roadster | Coupé |"),
    ("  group: structure\n  structural", "  structural"),
    ("  group: structure\n  structural", "  group: finish\n  structural"),
    ("| choice | en | de | GBP | JPY |", "| choice | en | | GBP | JPY |"),
    ("  category: A\n", "  category: A\n  lost: saloon\n"),
    ("option bumpers\n  group: structure", "option bumpers\n  group: structure\n  category: B"),
    ("  years: 1961\n", ""),
    ("  home: GB\n", ""),
    ("  spread: 10", "  spread: ten"),
    ("  holidays: GB-ENG\n", ""),
    ("  holidays: GB-ENG", "  holidays: GB-XYZ"),
    ("  validity: 30 days", "  validity: 3000 days"),
    ("  validity: 30 days", "  validity: 30 days\n  ceiling: 22 % on B"),
    ("  validity: 30 days", "  validity: 30 days\n  ceiling: a fifth"),
    ("2011-01-04 | 20 %", "4.1.2011 | 20 %"),
    ("2 August to 13", "second August to 13"),
    ("  days: 2\n", "  days: 2\n  changeover: half a slot\n"),
    ("  days: 2\n", "  days: 2\n  changeover: 2000 slots between body\n"),
    _another("phrases body\n  | choice | short en | short de |\n  | roadster | R | R |"),
    _another("phrases body\n  | choice | kind |\n  | roadster | R |"),
    _another("phrases body\n  | kind |\n  | R |\nphrases body\n  | kind |\n  | R |"),
    _another("drawing shell\n  | option | choice | element |\n  | body | coupe | roof |"),
    _another("drawing\n  | option | choice | element |\n  | boddy | coupe | roof |"),
    _another("drawing\n  | option | choice | element |\n  | body | coupe | Roof! |"),
    _another("drawing\n  | option | choice | element |\n  | body | coupe | roof/coupe |"),
    ("  never: body is coupe and bumpers is impact\n", "  these exist:\n  | body | bumpers |\n"),
    ("  | series is s2 | impact |", "  | not series is the donor's | impact |"),
    ("  | when | bumpers |", "  | when | series |"),
    _another("adjust dear\n  when: body is coupe\n  lines: bumpers.impact\n  times: 1.1\n" + D),
    _another("adjust dear\n  when: body is coupe\n  lines: body.coupe\n  times: lots\n" + D),
    _another("adjust dear\n  when: body is coupe\n  lines: body.coupe\n  times: 1000.5\n" + D),
    _another("adjust dear\n  lines: body.coupe\n  times: 1.1\n" + D),
    _another("adjust dear\n  when: body is coupe\n  lines: bumpers\n  times: 1.1\n" + D),
    _another("extra trip\n  category: A\n  label en: T\n  label de: F\n  | GBP | JPY |\n  | 1 | 1 |\n  | 2 | 2 |"),
    _another("extra trip\n  category: A\n  label en: T\n  label de: F\n  | GBP | JPY |"),
    ("  never: body", "  where: body is coupe\n  never: body"),
    ("never: body is coupe and", "never: donor number s2 and"),
    ("rule N1", f"rule {'n' * 60}"),
    ("rule N1", f"rule {'n' * 61}"),
    ("rule N1", f"rule {'n' * 41}"),
]  # fmt: skip


def said() -> Iterator[str]:
    """Each change, and under it every mistake that it makes."""
    for old, new in [*((change[0], change[1]) for change in CHANGES), *((each[0], each[1]) for each in MANY), *MORE]:
        assert old in SOUND, old
        yield f"{old!r} -> {new!r}"
        yield from (f"    {mistake.line}: {mistake.what}: {mistake.instead}" for mistake in _found(old, new))


def _found(old: str, new: str) -> tuple[Mistake, ...]:
    try:
        read_book(SOUND.replace(old, new, 1), "small.book")
    except BookMistakes as found:
        return found.mistakes
    return ()


def test_every_mistake_is_said_in_its_own_words() -> None:
    assert list(said()) == SAID.read_text(encoding="utf-8").splitlines()


if __name__ == "__main__":
    sys.stdout.write("\n".join(said()) + "\n")
