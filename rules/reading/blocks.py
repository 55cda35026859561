"""Text → blocks: lines, indentation, fields and table rows. Knows nothing of what any block means.

A line that begins in the first column opens a block (`kind word word`). Indented lines below it are fields
(`name: value`), lines that go on with a value (indented deeper than its field), or rows of a table (`| cell | cell |`).
A `#` as a line's first mark makes it a comment.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from rules.reading.mistakes import Enough, Ledger, sentence, shown

MOST_CHARACTERS = 8_000_000
LONGEST_LINE = 20_000

_FIELD = re.compile(r"([A-Za-z][A-Za-z' -]{0,60}?) *:(?: +(.*))?$")
_SPACES = re.compile(" {2,}")
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f\x85\u2028\u2029\ufeff]")


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table, its cells trimmed."""

    line: int
    cells: tuple[str, ...]


@dataclass(slots=True)
class Field:
    """`pieces`: (line, text) of the value, one for each line it takes."""

    name: str
    line: int
    indent: int
    pieces: list[tuple[int, str]]

    @property
    def value(self) -> str:
        """The value as one line, runs of spaces as one."""
        return _spaced(" ".join([text for _, text in self.pieces if text]))


@dataclass(slots=True)
class Block:
    """One block as written, nothing understood yet.

    `words`: what follows the kind on the head line; `rows`: the table, its heading first; `broken`: lines that are
    neither field nor row.
    """

    kind: str
    words: tuple[str, ...]
    line: int
    fields: list[Field] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    broken: list[str] = field(default_factory=list)


def blocks_of(text: str, ledger: Ledger) -> list[Block]:
    """The blocks of a text, in its order; lines that fit nowhere are mistakes. Enough where it is far too long."""
    if len(text) > MOST_CHARACTERS:
        what = sentence("the text has {count} characters", count=len(text))
        ledger.add(
            1,
            what,
            sentence("a rule book may have {most_characters}: divide or shorten it", most_characters=MOST_CHARACTERS),
        )
        raise Enough
    blocks: list[Block] = []
    for number, raw in enumerate(plain_lines(text), start=1):
        line = _clean(raw, number, ledger)
        if line and not line.lstrip().startswith("#"):
            _place(line, number, blocks, ledger)
    return blocks


def is_field_name(name: str) -> bool:
    """Whether a field could be called so."""
    found = _FIELD.fullmatch(f"{name}:")
    return found is not None and found[1] == name


def plain_lines(text: str) -> list[str]:
    """The lines of a text, whatever ends them."""
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")


def _clean(raw: str, number: int, ledger: Ledger) -> str:
    if len(raw) > LONGEST_LINE:
        ledger.add(
            number,
            sentence("the line has {count} characters", count=len(raw)),
            sentence("break it into lines of at most {longest_line} characters", longest_line=LONGEST_LINE),
        )
        return ""
    if "\t" in raw:
        ledger.add(number, sentence("there is a tab in this line"), sentence("write spaces instead"))
        raw = raw.replace("\t", "  ")
    if _CONTROL.search(raw):
        ledger.add(
            number, sentence("there is a character in this line that can't be seen"), sentence("type the line anew")
        )
        raw = _CONTROL.sub(" ", raw)
    return raw.rstrip()


def _place(line: str, number: int, blocks: list[Block], ledger: Ledger) -> None:
    body = line.lstrip()
    indent = len(line) - len(body)
    if indent == 0 and not body.startswith("|"):
        kind, *words = body.split()
        blocks.append(Block(kind, tuple(words), number))
    elif not blocks:
        ledger.add(
            number, sentence("this line belongs to nothing"), sentence("begin the file with a line like “book skerry”")
        )
    elif body.startswith("|"):
        blocks[-1].rows.append(Row(number, _cells(body)))
    else:
        _field_line(body, indent, number, blocks[-1], ledger)


def _cells(body: str) -> tuple[str, ...]:
    inner = body[1:-1] if len(body) > 1 and body.endswith("|") and not body.endswith("\\|") else body[1:]
    if "\\" not in inner:
        return tuple([_spaced(cell.strip()) for cell in inner.split("|")])
    return tuple(_spaced(cell.strip()).replace("\\|", "|") for cell in re.split(r"(?<!\\)\|", inner))


def _spaced(text: str) -> str:
    """Runs of spaces as one."""
    return _SPACES.sub(" ", text) if "  " in text else text


def _field_line(body: str, indent: int, number: int, block: Block, ledger: Ledger) -> None:
    last = block.fields[-1] if block.fields else None
    if last is not None and indent > last.indent:
        last.pieces.append((number, body))
    elif found := _FIELD.match(body):
        name, value = found.groups()
        block.fields.append(Field(name, number, indent, [(number, (value or "").strip())]))
    else:
        block.broken.append(body)
        ledger.add(
            number,
            sentence("“{body}” is neither a field nor a row of a table", body=shown(body)),
            sentence("write “name: value”, or indent it deeper than the line it goes on with"),
        )
