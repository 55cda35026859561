"""What hypothesis draws for the engine: whole questions on random rule books."""

from __future__ import annotations

from hypothesis import strategies as st

from tests.rules.random_books import Asked, make_question


def questions() -> st.SearchStrategy[Asked]:
    """A random book, tool states, donor, specification and tariff, all from one seed."""
    return st.randoms(use_true_random=False).map(make_question)
