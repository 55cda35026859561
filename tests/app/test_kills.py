"""The desk's server killed (SIGKILL) again and again while quotations are being issued: what it confirmed is there.

Each server is the real one, `serve` on a real port with a real folder. It is forked from a process that has done the
importing, so that fifty starts don't take minutes. The moments are drawn with a seed; the span they are drawn from
follows how long an issue takes on this machine now. What a power cut would spoil, a kill can't show: that is what
`synchronous=FULL` is for.
"""

from __future__ import annotations

import os
import random
import signal
import socket
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import closing
from dataclasses import dataclass, field
from datetime import timedelta
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
import requests

from app import clock
from app.config import CHEAP
from app.factory import hasher_of
from app.services.people import signing_in
from app.store import folder
from app.store.db import Store
from demo.loading import set_up
from tests.app.desk import CLERK, MANAGER, S3_ROADSTER, Desk

ROOT = Path(__file__).parents[2]
KILLS = 50
DRAFTS = 60
AT_ONCE = 2
SEED = 20261125
PASSWORD = "blue-ledger"

#: Issues once on a copy, so that everything is imported; forks a server for each line it reads and says its number.
FORKING = """
import os, shutil, signal, sys
from app import clock
from app.cli import main
from app.commands import serving
from app.services.quotations import quoting
from app.services.books import shelf
from app.store.db import Store
from tests.app.desk import CLERK

class Warm(dict):
    "Every server begins with what the first worked out of the book: it is the same book."
    def setdefault(self, store, empty):
        return super().setdefault("every", empty)

shelf._books, shelf._facts, shelf._prepared = Warm(), Warm(), Warm()

copy = Store(shutil.copy(sys.argv[1] + "/desk.sqlite3", sys.argv[1] + "-copy.sqlite3"))
quoting.issue(copy, CLERK, sys.argv[3], "A", clock.running(), expected=2)
copy.close()

signal.signal(signal.SIGCHLD, signal.SIG_IGN)
for _ in sys.stdin:
    child = os.fork()
    if child == 0:
        sys.stdout = sys.stderr
        os._exit(main(["serve", "--data", sys.argv[1], "--port", sys.argv[2]]))
    print(child, flush=True)
"""

#: Of each quotation: is its revision issued, are the parts of having been issued there.
STATE = """
SELECT q.number, r.issued_at IS NOT NULL,
  q.standing = 'issued',
  r.code IS NOT NULL AND r.frozen IS NOT NULL,
  (SELECT count(*) > 0 AND count(*) = sum(l.frozen IS NOT NULL) FROM revision_lines l WHERE l.revision = r.id),
  (SELECT count(*) > 0 FROM papers p WHERE p.revision = r.id),
  (SELECT count(*) = 1 FROM history h WHERE h.name = q.number AND h.what = 'revision-issued'),
  (SELECT count(*) = 1 FROM idempotency_keys k WHERE k.key = 'issue-' || q.number)
FROM quotations q JOIN revisions r ON r.quotation = q.id ORDER BY q.number
"""

PAPERS = """
SELECT q.number, p.language, p.size, p.pdf, p.sha256
FROM papers p JOIN revisions r ON r.id = p.revision JOIN quotations q ON q.id = r.quotation
"""


@dataclass
class Killed:
    """A folder whose server is killed; what was confirmed, and how often what happened."""

    data: Path
    port: int
    forking: subprocess.Popen[str]
    waiting: list[str]
    desk: requests.Session = field(default_factory=requests.Session)
    confirmed: dict[str, Any] = field(default_factory=dict)
    papers: dict[tuple[str, str, str], str] = field(default_factory=dict)
    kills: int = 0
    cut_off: int = 0
    issued_unheard: int = 0

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> int:
        """A server that answers; its process number."""
        assert self.forking.stdin is not None
        assert self.forking.stdout is not None
        self.forking.stdin.write("\n")
        self.forking.stdin.flush()
        process = int(self.forking.stdout.readline())
        until = time.monotonic() + 60
        while time.monotonic() < until:
            with closing(socket.socket()) as probe:
                if probe.connect_ex(("127.0.0.1", self.port)) == 0:
                    return process
            time.sleep(0.005)
        raise AssertionError("It did not answer.")

    def sign_in(self) -> None:
        answer = self.desk.post(f"{self.url}/api/session", json={"name": "imogen", "password": PASSWORD}, timeout=30)
        self.desk.headers["X-Forgery-Token"] = answer.json()["forgery_token"]

    def issue(self, number: str) -> Any:
        """The whole answer, or None where the server died before it was given."""
        headers = {**self.desk.headers, "If-Match": '"2"', "Idempotency-Key": f"issue-{number}"}
        try:
            answer = requests.post(
                f"{self.url}/api/quotations/{number}/revisions/A/issue",
                headers=headers,
                cookies=self.desk.cookies,
                timeout=60,
            )
        except requests.exceptions.RequestException:
            return None
        assert answer.status_code == 200, answer.text
        return answer.json()

    def kill(self, process: int) -> None:
        os.kill(process, signal.SIGKILL)
        self.kills += 1
        while _runs(process):
            time.sleep(0.002)


def _runs(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    return True


@pytest.fixture
def killed(tmp_path: Path) -> Iterator[Killed]:
    """The demo firm with its drafts ready to be issued, and nobody serving yet."""
    now = clock.running() - timedelta(days=1)
    data = tmp_path / "data"
    data.mkdir(mode=0o700)
    store = Store(data / folder.DATABASE)
    with store.writing():
        set_up(store, now)
        for person in (CLERK, MANAGER):
            signing_in.add_person(store, hasher_of(CHEAP), person, PASSWORD, now)
        drafts = [Desk(store).drafted((S3_ROADSTER, 1), at=now) for _ in range(DRAFTS)]
    store.close()
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    command = [sys.executable, "-c", FORKING, str(data), str(port), drafts[0]]
    with (
        (tmp_path / "log").open("w") as log,
        subprocess.Popen(command, cwd=ROOT, stdin=-1, stdout=-1, stderr=log, text=True) as forking,
    ):
        yield Killed(data, port, forking, drafts)
        forking.kill()


def state(data: Path) -> dict[str, bool]:
    """Whether each quotation is issued; nothing may be half so."""
    with closing(sqlite3.connect(data / folder.DATABASE)) as db:
        rows = db.execute(STATE).fetchall()
        assert db.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert db.execute("PRAGMA foreign_key_check").fetchall() == []
    for number, issued, *parts in rows:
        assert parts == [issued] * len(parts), f"{number} is half issued: {parts}"
    return {row[0]: bool(row[1]) for row in rows}


def paper_sums(data: Path) -> dict[tuple[str, str, str], str]:
    """The checksum of each paper kept, reckoned from its bytes and held against the one kept beside it."""
    with closing(sqlite3.connect(data / folder.DATABASE)) as db:
        papers = db.execute(PAPERS).fetchall()
    for *_, pdf, kept in papers:
        assert sha256(pdf).hexdigest() == kept
        assert pdf.startswith(b"%PDF-")
    return {(number, language, size): kept for number, language, size, _, kept in papers}


def test_killed_fifty_times_while_issuing_the_desk_loses_nothing_that_it_confirmed(killed: Killed) -> None:
    drawn = random.Random(SEED)
    process = killed.start()
    killed.sign_in()
    began = time.monotonic()
    first = killed.waiting.pop(0)
    killed.confirmed[first] = killed.issue(first)
    span = 1.5 * (time.monotonic() - began)
    killed.kill(process)
    with ThreadPoolExecutor(AT_ONCE) as clerks:
        while killed.kills < KILLS:
            heard = round_of(killed, clerks, drawn.random() * span)
            span *= (1.2, 1.0, 0.85)[heard]
    look_through_at_the_end(killed)


def round_of(killed: Killed, clerks: ThreadPoolExecutor, moment: float) -> int:
    """Two issue at once, the server dies at the moment; then the folder is looked through. How many were confirmed."""
    process = killed.start()
    asked = killed.waiting[:AT_ONCE]
    answers: dict[str, Future[Any]] = {number: clerks.submit(killed.issue, number) for number in asked}
    time.sleep(moment)
    killed.kill(process)
    standing, sums = state(killed.data), paper_sums(killed.data)
    for number, answer in answers.items():
        if answer.result() is None:
            killed.cut_off += 1
            killed.issued_unheard += standing[number]
        else:
            killed.confirmed[number] = answer.result()
            killed.waiting.remove(number)
    assert all(standing[number] for number in killed.confirmed)
    assert killed.papers.items() <= sums.items()
    killed.papers = sums
    return len(asked) - sum(answer.result() is None for answer in answers.values())


def look_through_at_the_end(killed: Killed) -> None:
    """Asked again with its key each gives the same answer; what was cut off can be issued; each paper comes as kept."""
    process = killed.start()
    assert len(killed.confirmed) >= 10
    assert killed.cut_off >= 10
    for number, answer in killed.confirmed.items():
        assert killed.issue(number) == answer
    assert set(killed.confirmed) <= {number for number, *_ in killed.papers}
    for (number, language, size), kept in killed.papers.items():
        where = f"{killed.url}/api/quotations/{number}/revisions/A/paper"
        got = killed.desk.get(where, params={"language": language, "size": size}, timeout=60)
        assert sha256(got.content).hexdigest() == kept
    for number in killed.waiting[:AT_ONCE]:
        assert killed.issue(number)["state"] == "issued"
    killed.kill(process)
    state(killed.data)
