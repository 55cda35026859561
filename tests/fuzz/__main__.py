"""python -m tests.fuzz [--seconds N] [--seed S] [--book N]: walk over random rule books until told to stop.

Prints the seed first, a line now and then, and what differs with the command that shows it again; then it ends with 1.
"""

from __future__ import annotations

import argparse
import signal
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import count
from random import SystemRandom
from time import monotonic
from types import FrameType

from tests.fuzz import by_solver
from tests.fuzz.differing import Difference
from tests.fuzz.running import Failed, differences_of
from tests.fuzz.walks import Question, walk

#: Seconds between two lines of progress.
EVERY = 10


@dataclass
class Tally:
    """What was done so far."""

    began: float = field(default_factory=monotonic)
    books: int = 0
    wide: int = 0
    questions: int = 0
    told: float = 0

    def line(self) -> str:
        seconds = monotonic() - self.began
        return (
            f"{seconds:7.0f} s  {self.books} books ({self.wide} of them wide), {self.questions} questions,"
            f" {self.questions / max(seconds, 1e-9):.1f} a second, {by_solver.GIVEN_UP} prices given up by the solver"
        )

    def is_due(self) -> bool:
        due = monotonic() - self.told >= EVERY
        self.told = monotonic() if due else self.told
        return due


class Stop(BaseException):
    """Told to stop: nothing that a question raised."""


def main(words: list[str]) -> int:
    asked = _parser().parse_args(words)
    seed = SystemRandom().randrange(2**32) if asked.seed is None else asked.seed
    print(f"seed {seed}", flush=True)
    signal.signal(signal.SIGTERM, _stop)
    numbers = count() if asked.book is None else iter((asked.book,))
    if asked.books is not None:
        numbers = iter(range(asked.books))
    return _fuzz(seed, numbers, asked.seconds)


def _stop(number: int, frame: FrameType | None) -> None:
    raise Stop


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("--seconds", type=float, help="stop after so many (default: when told to)")
    parser.add_argument("--seed", type=int, help="the same books and questions again (default: a new seed)")
    parser.add_argument("--book", type=int, help="only this book of the seed")
    parser.add_argument("--books", type=int, help="only so many books of the seed")
    return parser


def _fuzz(seed: int, numbers: Iterator[int], seconds: float | None) -> int:
    tally = Tally()
    try:
        for number in numbers:
            found = _one(seed, number, tally)
            if found:
                return _tell(seed, number, tally, *found)
            if tally.is_due():
                print(tally.line(), flush=True)
            if seconds is not None and monotonic() - tally.began >= seconds:
                break
    except (KeyboardInterrupt, Stop):
        print("told to stop", flush=True)
    print(f"{tally.line()}\nno difference; seed {seed}", flush=True)
    return 0


def _one(seed: int, number: int, tally: Tally) -> tuple[Question, list[Difference] | Failed] | None:
    walked = walk(seed, number)
    for question, differences in differences_of(walked):
        tally.questions += 1
        if differences:
            return question, differences
    tally.books, tally.wide = tally.books + 1, tally.wide + walked.wide
    return None


def _tell(seed: int, number: int, tally: Tally, question: Question, found: list[Difference] | Failed) -> int:
    print(f"DIFFERENCE  book {number}, question {question.step} ({question.did})")
    print(f"  asked: {question.asked.specification.answers}\n  wish: {question.wish}\n  donor: {question.asked.donor}")
    print(f"  tools: {question.asked.states}\n  tariff: {question.asked.tariff}")
    for difference in found if isinstance(found, list) else [found]:
        print(f"  {difference}")
    print(f"{tally.line()}\nagain: .venv/bin/python -m tests.fuzz --seed {seed} --book {number}", flush=True)
    return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
