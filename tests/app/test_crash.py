"""The desk killed at its worst moments: everything of an act is there afterwards, or nothing of it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from app.domain.quotations.quotation import Standing
from app.services import once
from app.services.once import Once
from app.services.quotations import quoting
from app.store.db import Store
from tests.app.desk import CLERK, NOW, S3_ROADSTER, Desk

ROOT = Path(__file__).parents[2]

#: Issues a revision and is killed (SIGKILL) at the moment named.
ISSUE = """
import os, signal, sys
from app.services.quotations import papering, quoting
from app.services.once import Once
from app.store import quotations
from app.store.db import Store
from tests.app.desk import CLERK, NOW

path, number, moment = sys.argv[1:]

def die(*_, **__):
    os.kill(os.getpid(), signal.SIGKILL)

if moment == "before the paper":
    papering.pdf = die
if moment == "in the middle of writing":
    quotations.issue = die
if moment == "after everything is written, before it is kept":
    quoting.note = die

quoting.issue(Store(path), CLERK, number, "A", NOW, expected=2, once=Once("8c1e", "imogen", "issue"))
die()
"""

KEY = Once("8c1e", "imogen", "issue")


@pytest.mark.parametrize(
    "moment", ["before the paper", "in the middle of writing", "after everything is written, before it is kept"]
)
def test_killed_before_it_is_kept_the_draft_is_a_draft_and_can_be_issued(desk: Desk, moment: str) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    before = desk.revision(number)
    _issue_and_die(desk, number, moment)
    assert desk.revision(number) == before
    issued = quoting.issue(desk.store, CLERK, number, "A", NOW, expected=2, once=KEY)
    assert (issued.standing, len(issued.papers)) == (Standing.ISSUED, 1)


def test_killed_before_the_answer_is_sent_it_is_issued_and_asking_again_gives_the_answer(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    _issue_and_die(desk, number, "before the answer")
    reopened = Store(desk.store.path)
    issued = quoting.issue(reopened, CLERK, number, "A", NOW, expected=2, once=KEY)
    assert (issued.standing, len(issued.papers), issued.lines[0].frozen is not None) == (Standing.ISSUED, 1, True)
    assert once.replayed(reopened, KEY) is None  # the answer never got as far as the store


def _issue_and_die(desk: Desk, number: str, moment: str) -> None:
    command = [sys.executable, "-c", ISSUE, str(desk.store.path), number, moment]
    ended = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=120, check=False)
    assert ended.returncode == -9, ended.stderr
