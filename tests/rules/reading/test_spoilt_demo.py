"""The demo's book spoilt at every kind of block, field and column, a few at a time: what is said, to the letter.

The texts stand in `spoilt_demo_said.txt` beside this file, each under the round in which it was said and the line as it
was spoilt. Whoever means to change one writes the file anew (`python -m tests.rules.reading.test_spoilt_demo > …`) and
reads the difference.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import zip_longest
from pathlib import Path

from rules.reading import BookMistakes, Mistake, read_book
from tests.rules.demo_book import FILE

TEXT = FILE.read_text(encoding="utf-8")
SAID = Path(__file__).with_name("spoilt_demo_said.txt")
#: Kinds of block without which a book is read no further.
FIRST = ("book", "lists")
#: What no field and no cell can mean.
NOTHING = "nothing!"


#: What no rule of spoiling comes upon: what is replaced, by what.
BESIDE = [
    ("keep door-company\n", "keep door-company\n  before: paint\n"),
    ("  speaks as: N1\n", "  speaks as: N1\n  stands in: P1\n"),
    ("front 80 mm, rear 80 mm", "fornt 80 mm, rear 80 mm"),
    ("front 80 mm, rear 80 mm", "front 80 mm, front 90 mm"),
    ("front 80 mm, rear 80 mm", "front eighty, rear 80 mm"),
    ("within {2 mm}. |", "within {two mm}. |"),
    ("auf {2 mm} eben", "auf {3 mm} eben"),
    ("  | series is s1 ", "  | series is s1 and filler is deck "),
    ("  | series is s1 ", "  | series is s1 and hood is usual "),
    ("  | ordered ", "  | framing "),
    ("several: 3 % from", "several: 300 % from"),
    ("  times: 1.12", "  times: 0"),
    ("film: 120 to 200 µm", "film: 200 to 120 µm"),
    ("nugget: 3.5 to 4", "nugget: 4 to 3.5"),
    ("numbers: T1-", "numbers: T2-"),
    ("cut P1\n", "cut N1\n"),
    ("  with: P2a\n", "  with: N1\n"),
    ("| body/coupe ", "| body/roadster "),
    ("  | body        | coupe            | body/coupe             |\n", ""),
    ("| 0.9 / 0.9", "| 0.0 / 0.9"),
    ("| 0.9 / 0.9", "| 10.1 / 0.9"),
    ("  home: GB\n", "  home: XX\n"),
    ("changes en: ", "changes fr: "),
    ("numbers: T1-", "numbers: T1-9"),
]


@dataclass(frozen=True)
class Spoilt:
    """The line at `at` becomes `lines`: none, itself in another way, or itself twice; so does the rest of `many`."""

    at: int
    lines: tuple[str, ...]
    many: int = 1


def blocks(lines: list[str]) -> Iterator[range]:
    """Where each begins and ends."""
    heads = [at for at, line in enumerate(lines) if line and not line.startswith((" ", "#"))]
    for begin, end in zip_longest(heads, heads[1:], fillvalue=len(lines)):
        yield range(begin, end)


def ways(lines: list[str], block: range, seen: set[str]) -> Iterator[Spoilt]:
    """How its head, its fields and its table can be spoilt that no block of its kind has shown before."""
    kind, *name = lines[block[0]].split()
    if kind not in seen:
        seen.add(kind)
        yield Spoilt(block[0], (kind + NOTHING,))
        yield Spoilt(block[0], (kind,) if name else (f"{kind} {NOTHING}",))
    for at in block[1:]:
        field, colon, _ = lines[at].partition(":")
        if colon and not field.strip().startswith(("|", "#")) and f"{kind}/{field}" not in seen:
            seen.add(f"{kind}/{field}")
            yield from (Spoilt(at, said) for said in ((), (f"{field}: {NOTHING}",), (lines[at], lines[at])))
            yield Spoilt(at, (f"{field}:",))
    rows = [at for at in block if lines[at].strip().startswith("|")]
    if len(rows) > 1:
        yield from _table(lines, rows, kind, seen)


def _table(lines: list[str], rows: list[int], kind: str, seen: set[str]) -> Iterator[Spoilt]:
    head, first = rows[0], rows[1]
    for place, column in enumerate(_cells(lines[head])):
        if f"{kind}|{column}" not in seen:
            seen.add(f"{kind}|{column}")
            for at, cell in ((head, NOTHING), (first, NOTHING), (first, "")):
                yield Spoilt(at, (_row(lines[at], place, cell),))
    if f"{kind}||" not in seen:
        seen.add(f"{kind}||")
        yield Spoilt(first, (lines[first], lines[first]))
        yield Spoilt(first, (lines[first] + " more |",))
        yield Spoilt(head, (), len(rows))
        yield Spoilt(first, (), len(rows) - 1)


def _cells(line: str) -> list[str]:
    return [cell.strip() for cell in line.strip().strip("|").split("|")]


def _row(line: str, place: int, cell: str) -> str:
    cells = _cells(line)
    return f"  | {' | '.join([*cells[:place], cell, *cells[place + 1 :]])} |"


def rounds(text: str) -> Iterator[tuple[Spoilt, ...]]:
    """In each at most one way of every kind of block, so that few hide each other; what all hangs on alone."""
    lines, seen, of_kind = text.split("\n"), set[str](), dict[str, list[Spoilt]]()
    for block in blocks(lines):
        of_kind.setdefault(lines[block[0]].split()[0], []).extend(ways(lines, block, seen))
    for kind in FIRST:
        yield from ((one,) for one in of_kind.pop(kind))
    for together in zip_longest(*of_kind.values()):
        yield tuple(one for one in together if one is not None)


def spoil(text: str, together: tuple[Spoilt, ...]) -> str:
    lines: list[str | None] = list(text.split("\n"))
    for one in together:
        lines[one.at : one.at + one.many] = ["\n".join(one.lines) if one.lines else None, *[None] * (one.many - 1)]
    return "\n".join(line for line in lines if line is not None)


def said() -> Iterator[str]:
    """What was said in each round, each text once: a spoilt name may be called in a hundred lines."""
    for number, together in enumerate(rounds(TEXT), 1):
        yield f"# {number}"
        yield from _said_of(spoil(TEXT, together))
    for old, new in BESIDE:
        assert old in TEXT, old
        yield f"# {old!r} -> {new!r}"
        yield from _said_of(TEXT.replace(old, new, 1))


def _said_of(text: str) -> Iterator[str]:
    first = {(mistake.what, mistake.instead): mistake.line for mistake in reversed(_mistakes(text))}
    for (what, instead), line in sorted(first.items(), key=lambda told: (told[1], *told[0])):
        yield text.split("\n")[line - 1].strip()
        yield f"    {what}: {instead}"


def _mistakes(text: str) -> tuple[Mistake, ...]:
    try:
        read_book(text, "spoilt.book")
    except BookMistakes as found:
        return found.mistakes
    return ()


def test_whatever_is_spoilt_in_the_demos_book_is_said_in_words_of_its_own() -> None:
    assert list(said()) == SAID.read_text(encoding="utf-8").splitlines()


if __name__ == "__main__":
    sys.stdout.write("\n".join(said()) + "\n")
