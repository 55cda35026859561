"""The real product, started the way `make demo` starts it, for tests that go through HTTP or the browser."""

from __future__ import annotations

import fcntl
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Page

TOP = Path(__file__).resolve().parents[2]

#: The moment at which the clock of the demo stands in every test: a weekday in working hours.
NOW = "2026-11-25T09:00:00+00:00"

#: Seconds until a start counts as failed. Loading the demo firm takes a few; this is for a machine that is busy.
PATIENCE = 180.0


@dataclass(frozen=True)
class Product:
    """One running product: `url` without a slash at the end, `data` its folder, `passwords` by sign-in name."""

    url: str
    data: Path
    now: str = NOW
    passwords: dict[str, str] = field(default_factory=dict)

    def sign_in(self, page: Page, name: str) -> None:
        """Sign the demo person in, afresh and without the form, which a test of its own fills in; wait for his desk."""
        entry = {"name": name, "password": self.passwords[name]}
        answer = page.request.post(f"{self.url}/api/session", data=entry, headers={"Origin": self.url})
        assert answer.ok, answer.text()
        page.goto(self.url)
        page.locator(".masthead__name").wait_for(state="attached")


@contextmanager
def running_product(data: Path, loaded: Path | None = None) -> Iterator[Product]:
    """The demo with its data in `data`: a copy of the folder `loaded`, where that is given and `data` not there yet."""
    if loaded is not None and not data.exists():
        shutil.copytree(loaded, data)
    with _running(data, NOW) as product:
        yield product


def loaded_once(home: Path) -> Path:
    """The folder of a demo that was started and stopped; whoever needs it first has it made, the others wait.

    `home`: a folder that all test processes of the run share.
    """
    with (home / "demo.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not (home / "demo-loaded").exists():
            with _running(home / "demo-loading", NOW):
                pass
            (home / "demo-loading").rename(home / "demo-loaded")
    return home / "demo-loaded"


@contextmanager
def _running(data: Path, now: str) -> Iterator[Product]:
    """On a free port; stopped at the end as Ctrl-C stops it."""
    port = _free_port()
    command = [sys.executable, "-m", "app", "demo", "--port", str(port), "--data", str(data), "--now", now]
    written = data.with_name(data.name + ".log")
    with written.open("wb") as log, subprocess.Popen(command, cwd=TOP, stdout=log, stderr=subprocess.STDOUT) as process:
        try:
            url = f"http://127.0.0.1:{port}"
            _wait_until_it_answers(url, process, written)
            yield Product(url, data, now, _passwords(written.read_text()))
        finally:
            _stop(process)


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def _wait_until_it_answers(url: str, process: subprocess.Popen[bytes], written: Path) -> None:
    until = time.monotonic() + PATIENCE
    while time.monotonic() < until and process.poll() is None:
        if _answers(url):
            return
        time.sleep(0.05)
    raise RuntimeError(f"The product did not start. It wrote:\n{written.read_text()}")


def _answers(url: str) -> bool:
    try:
        with urllib.request.urlopen(url, timeout=2):
            return True
    except urllib.error.HTTPError:
        return True
    except OSError:
        return False


def _passwords(printed: str) -> dict[str, str]:
    """The table of sign-ins that the demo prints: name, then password, both in small letters."""
    return dict(re.findall(r"^  ([a-z]+) +([a-z]+-[a-z]+) ", printed, flags=re.MULTILINE))


def _stop(process: subprocess.Popen[bytes]) -> None:
    process.send_signal(signal.SIGINT)
    try:
        process.wait(10)
    except subprocess.TimeoutExpired:
        process.kill()
        raise
