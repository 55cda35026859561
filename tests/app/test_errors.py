from __future__ import annotations

import re

from app.domain import errors
from app.domain.errors import BookRefused, leaves
from rules.reading import Mistake
from rules.reading.mistakes import sentence


def test_every_refusal_that_can_be_raised_has_a_slug_of_its_own() -> None:
    slugs = [leaf.slug for leaf in leaves()]
    assert len(set(slugs)) == len(slugs)
    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)*", slug) for slug in slugs)


def test_the_tree_is_drawn_as_it_is() -> None:
    drawn = re.findall(r"[├└]── (\w+)", errors.__doc__ or "")
    assert [name for name in drawn if name in {leaf.__name__ for leaf in leaves()}] == [
        leaf.__name__ for leaf in leaves()
    ]


def test_a_refused_book_carries_every_mistake() -> None:
    mistakes = (Mistake("book", 1, sentence("a"), sentence("b")), Mistake("book", 2, sentence("c"), sentence("d")))
    refused = BookRefused(mistakes)
    assert (refused.mistakes, refused.facts) == (mistakes, {"count": 2})
