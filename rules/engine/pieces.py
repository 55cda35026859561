"""A book's bans, gates and prices in pieces that share no open option once answers are in: each with a small diagram.

What a book as a whole is too large for, its pieces often aren't: counts of pieces multiply, prices add up. Where a
piece is too large as well, nothing is said of counts and prices; whether something can be built is not asked here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import chain

from rules.engine.diagram import Diagram, TooLarge, compile_diagram
from rules.engine.forest import FALSE, TRUE, Forest, Term


class Part(Enum):
    """What a root of the forest is: it forbids, it gates, or it charges."""

    BAN = "ban"
    GATE = "gate"
    CHARGE = "charge"


@dataclass(frozen=True, slots=True)
class Root:
    """`names`: the options that it depends on."""

    part: Part
    node: int
    names: frozenset[str]


@dataclass(frozen=True, slots=True)
class Piece:
    """Open options with a diagram of all that can be built of them, and of what of it is outright.

    `roots`: those it is made of, as they were before any answer.
    """

    options: tuple[str, ...]
    buildable: Diagram
    outright: Diagram
    roots: tuple[Root, ...]


@dataclass(frozen=True, slots=True)
class Split:
    """Roots under answers: their pieces, and the roots that answers settle: charged (with the term), or broken."""

    pieces: tuple[Piece, ...]
    charged: tuple[tuple[Root, Term], ...]
    broken: tuple[Root, ...]

    def apart(self, option: str, touched: frozenset[str]) -> Split:
        """What stays as it is when the option's answer is taken back; `touched`: see `near`."""
        return Split(
            tuple(piece for piece in self.pieces if touched.isdisjoint(piece.options)),
            tuple((root, term) for root, term in self.charged if option not in root.names),
            tuple(root for root in self.broken if option not in root.names),
        )

    def near(self, option: str, touched: frozenset[str], roots: Sequence[Root]) -> tuple[Root, ...]:
        """The others of these roots: all that name the option, and those of the pieces that have touched options.

        What a root depends on before the answers says too much: answers may have settled it, or freed it of options.
        """
        met = chain.from_iterable(p.roots for p in self.pieces if not touched.isdisjoint(p.options))
        chosen = {*met, *(root for root in roots if option in root.names)}
        return tuple(root for root in roots if root in chosen)


def roots_of(forest: Forest, parts: Iterable[tuple[Part, int]]) -> tuple[Root, ...]:
    """The nodes of a forest as roots; those that never hold are left out."""
    return tuple(Root(part, node, forest.options_of(node)) for part, node in parts if node != FALSE)


def joined(roots: Sequence[Root], options: Iterable[str] = ()) -> list[tuple[Root, ...]]:
    """The roots in lots that share no option, but those in `options`, which don't join."""
    apart = frozenset(options)
    lots: list[tuple[frozenset[str], list[Root]]] = []
    for root in roots:
        names = root.names - apart
        near = [lot for lot in lots if lot[0] & names]
        lots = [lot for lot in lots if not lot[0] & names]
        lots.append((names.union(*(lot[0] for lot in near)), [*chain(*(lot[1] for lot in near)), root]))
    return [tuple(lot) for _, lot in lots]


def split(forest: Forest, roots: Sequence[Root], made: Mapping[str, int], limit: int) -> Split | None:
    """The roots once choices are made (option → index); None where they need more than `limit` raw states in all."""
    named = frozenset[str]().union(*(root.names for root in roots)) - made.keys()
    left = Forest(tuple(o for o in forest.order if o in named), forest.choices)
    done: dict[int, int] = {}
    grown = [(root, left.regrow(forest, root.node, made, done)) for root in roots]
    was: dict[Root, list[Root]] = {}
    for root, node in grown:
        if left.children[node]:
            was.setdefault(Root(root.part, node, left.options_of(node)), []).append(root)
    try:
        pieces = tuple(_pieces(left, was, limit))
    except TooLarge:
        return None
    charged = tuple((root, left.terms[node]) for root, node in grown if node in left.terms)
    return Split(pieces, charged, tuple(root for root, node in grown if node == TRUE))


def _pieces(forest: Forest, was: Mapping[Root, Sequence[Root]], limit: int) -> Iterator[Piece]:
    """`was`: root under answers → what it comes from, for several may have become one."""
    each = [root for root, of in was.items() for _ in of]
    for lot in joined(each):
        piece = _piece(forest, lot, tuple(chain.from_iterable(was[root] for root in dict.fromkeys(lot))), limit)
        limit -= max(piece.buildable.raw, piece.outright.raw)
        yield piece


def _piece(forest: Forest, roots: Sequence[Root], before: tuple[Root, ...], limit: int) -> Piece:
    named = frozenset[str]().union(*(root.names for root in roots))
    options = tuple(o for o in forest.order if o in named)
    own = Forest(options, forest.choices)
    done: dict[int, int] = {}
    nodes = {part: [own.regrow(forest, r.node, {}, done) for r in roots if r.part is part] for part in Part}
    buildable = compile_diagram(own, nodes[Part.BAN], nodes[Part.CHARGE], limit)
    forbidden = [*nodes[Part.BAN], *nodes[Part.GATE]]
    gated = compile_diagram(own, forbidden, nodes[Part.CHARGE], limit) if nodes[Part.GATE] else buildable
    return Piece(options, buildable, gated, before)
