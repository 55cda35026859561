"""Commands that serve, run as a person runs them: started, waited for, stopped as Ctrl-C stops them."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import requests

TOP = Path(__file__).resolve().parents[2]


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def running(port: int, written: Path, *arguments: str, patience: float = 60) -> Iterator[subprocess.Popen[str]]:
    """A command that serves, once it answers; stopped as Ctrl-C stops it."""
    command = [sys.executable, "-m", "app", *arguments, "--port", str(port)]
    with written.open("w") as log, subprocess.Popen(command, cwd=TOP, stdout=log, stderr=log, text=True) as process:
        try:
            wait_for(port, process, patience)
            yield process
        finally:
            if process.poll() is None:
                process.send_signal(signal.SIGINT)
            process.wait(20)


def wait_for(port: int, process: subprocess.Popen[str], patience: float) -> None:
    until = time.monotonic() + patience
    while time.monotonic() < until and process.poll() is None:
        try:
            requests.get(f"http://127.0.0.1:{port}/api/session", timeout=2)
        except requests.ConnectionError:
            time.sleep(0.05)
        else:
            return
    raise AssertionError("It did not answer.")
