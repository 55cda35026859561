"""A row of the table, and how spans are taken."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import median, quantiles
from time import perf_counter
from typing import Any, TypeVar

T = TypeVar("T")


@dataclass(frozen=True)
class Row:
    """`value` and `reference` in `unit`; `ratio` as the row's own note says. None: there is no such thing."""

    name: str
    value: float
    unit: str
    reference: float | None
    ratio: float | None
    note: str = ""

    def data(self) -> dict[str, Any]:
        return {
            "name": self.name,
            "value": self.value,
            "unit": self.unit,
            "reference": self.reference,
            "ratio": self.ratio,
        }


def timed(work: Callable[..., T], *given: object, **named: object) -> tuple[float, T]:
    """Milliseconds, and what came of it."""
    began = perf_counter()
    made = work(*given, **named)
    return (perf_counter() - began) * 1000, made


def rows_of(name: str, ours: Sequence[float], theirs: Sequence[float], note: str = "") -> list[Row]:
    """Median and 95th percentile, in milliseconds; ratio: reference ÷ ours, on the medians."""
    return [
        _row(name, median(ours), median(theirs) if theirs else None, note),
        _row(f"{name}_p95", _high(ours), _high(theirs) if theirs else None, note),
    ]


def _row(name: str, ours: float, theirs: float | None, note: str) -> Row:
    return Row(name, round(ours, 4), "ms", None if theirs is None else round(theirs, 4), _ratio(theirs, ours), note)


def _ratio(over: float | None, under: float) -> float | None:
    return None if over is None else round(over / under, 2)


def _high(spans: Sequence[float]) -> float:
    return quantiles(spans, n=20)[-1] if len(spans) > 1 else spans[0]
