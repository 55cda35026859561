"""A rule book's text as a row of pieces, each one block with what stands above it. Nothing of the text is lost.

Knows how a text is laid out (a head line in the first column, the rest indented), not what a block means: a text with
mistakes has pieces, too. Every change gives a new sheet; what was not changed keeps its lines to the letter.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from rules.reading.blocks import plain_lines


@dataclass(frozen=True, slots=True)
class Piece:
    """`above`: empty lines and comments before the head; `lines`: the head, its fields, rows and comments."""

    above: tuple[str, ...]
    lines: tuple[str, ...]

    @property
    def words(self) -> tuple[str, ...]:
        """The head line's words: the kind, mostly followed by an id."""
        return tuple(self.lines[0].split())

    @property
    def text(self) -> str:
        """The block as text, what stands above it apart."""
        return "\n".join(self.lines)


@dataclass(frozen=True, slots=True)
class Sheet:
    """`below`: what follows the last block: empty lines and comments."""

    pieces: tuple[Piece, ...]
    below: tuple[str, ...]

    def text(self) -> str:
        """The whole text, line for line what it was made of."""
        return "\n".join((*(line for piece in self.pieces for line in (*piece.above, *piece.lines)), *self.below))

    def begins(self) -> tuple[int, ...]:
        """The line of each piece's head, counted from 1."""
        return tuple(_begins(self.pieces))

    def at(self, line: int) -> tuple[int, int] | None:
        """(piece, line within it, both from 0) of a line of the text; None where it belongs to no block."""
        for number, (piece, begin) in enumerate(zip(self.pieces, self.begins(), strict=True)):
            if begin <= line < begin + len(piece.lines):
                return number, line - begin
        return None

    def with_lines(self, number: int, lines: Sequence[str]) -> Sheet:
        """The sheet with other lines in piece `number`."""
        return self._put(number, (replace(self.pieces[number], lines=tuple(lines)),))

    def without(self, number: int) -> Sheet:
        """The sheet without piece `number`; the comments above it go with it."""
        return self._put(number, ())

    def with_after(self, number: int, lines: Sequence[str]) -> Sheet:
        """The sheet with a new piece after piece `number`, an empty line between them; -1: before all others."""
        new = Piece(("",) if self.pieces and number >= 0 else (), tuple(lines))
        return replace(self, pieces=(*self.pieces[: number + 1], new, *self.pieces[number + 1 :]))

    def moved(self, number: int, to: int) -> Sheet:
        """The sheet with piece `number` standing where `to` stood, what stands above it moved along."""
        left = [*self.pieces[:number], *self.pieces[number + 1 :]]
        return replace(self, pieces=(*left[:to], self.pieces[number], *left[to:]))

    def _put(self, number: int, instead: tuple[Piece, ...]) -> Sheet:
        return replace(self, pieces=(*self.pieces[:number], *instead, *self.pieces[number + 1 :]))


def sheet_of(text: str) -> Sheet:
    """The pieces of a text; line ends are made one kind, all else is kept."""
    waiting: list[str] = []
    pieces: list[tuple[list[str], list[str]]] = []
    for line in plain_lines(text):
        if _is_head(line):
            pieces.append((waiting, [line]))
            waiting = []
        elif _is_inside(line) and pieces:
            pieces[-1][1].extend((*waiting, line))
            waiting = []
        else:
            waiting.append(line)
    return Sheet(tuple(Piece(tuple(above), tuple(lines)) for above, lines in pieces), tuple(waiting))


def _is_head(line: str) -> bool:
    return bool(line.strip()) and not line[0].isspace() and not line.startswith(("#", "|"))


def _is_inside(line: str) -> bool:
    return bool(line.strip()) and not line.startswith("#")


def _begins(pieces: tuple[Piece, ...]) -> Iterator[int]:
    line = 1
    for piece in pieces:
        line += len(piece.above)
        yield line
        line += len(piece.lines)
