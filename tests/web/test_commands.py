"""The commands, run as a person runs them: what they print, and how they end."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import requests

from app.cli import main
from demo.people import PEOPLE

TOP = Path(__file__).resolve().parents[2]
BOOK = TOP / "demo" / "skerry.book"


def run(*arguments: str, typed: str = "") -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "app", *arguments]
    return subprocess.run(command, cwd=TOP, input=typed, capture_output=True, text=True, timeout=60)


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


def test_the_demo_starts_prints_its_sign_ins_keeps_its_data_and_stops_cleanly(tmp_path: Path) -> None:
    port, data, written = free_port(), tmp_path / "data", tmp_path / "log"
    where = ("demo", "--data", str(data), "--now", "2026-11-25T09:00:00+00:00")
    with running(port, written, *where) as process:
        desk = signed_in(port)
        made = desk.post(
            f"http://127.0.0.1:{port}/api/enquiries",
            json={"customer": {"name": "Kept Overnight"}},
            headers={"Idempotency-Key": "kept-over-a-restart"},
        )
        assert made.status_code == 201
        desk.close()
    assert process.returncode == 0
    printed = written.read_text()
    assert f"http://127.0.0.1:{port}" in printed
    for person, password in PEOPLE:
        assert f"  {person.name} " in printed
        assert f" {password} " in printed
    assert printed.rstrip().endswith("stopped")

    began = time.monotonic()
    with running(port, written, *where):
        assert time.monotonic() - began < 20  # under 3 s on a quiet machine; the tests share theirs
        desk = signed_in(port)
        found = desk.get(f"http://127.0.0.1:{port}/api/enquiries", params={"q": "Overnight"}).json()["enquiries"]
        assert [enquiry["customer"]["name"] for enquiry in found] == ["Kept Overnight"]
        desk.close()


def signed_in(port: int) -> requests.Session:
    desk = requests.Session()
    answer = desk.post(f"http://127.0.0.1:{port}/api/session", json={"name": "imogen", "password": "blue-ledger"})
    desk.headers["X-Forgery-Token"] = answer.json()["forgery_token"]
    return desk


def test_a_taken_port_is_told_before_anything_is_loaded(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        answer = run("demo", "--port", str(port), "--data", str(tmp_path / "data"))
    assert answer.returncode == 1
    assert f"Port {port} on 127.0.0.1 can't be had" in answer.stderr
    assert f"PORT={port + 1}" in answer.stderr
    assert not (tmp_path / "data").exists()


def test_starting_over_throws_away_the_desks_own_files_and_no_others(tmp_path: Path) -> None:
    from app.store.folder import forget

    for name in ("desk.sqlite3", "desk.sqlite3-wal", "letter.txt"):
        (tmp_path / name).write_text("x")
    forget(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["letter.txt"]


def test_serving_needs_a_manager_and_a_book_and_says_how(tmp_path: Path) -> None:
    data = str(tmp_path / "data")
    empty = run("serve", "--data", data)
    assert (empty.returncode, "add-person" in empty.stderr, "publish-book" in empty.stderr) == (1, True, True)

    short = run("add-person", "maud", "Maud Ferrer", "--data", data, typed="short\n")
    assert (short.returncode, "at least 12 characters" in short.stderr) == (1, True)
    first = run("add-person", "maud", "Maud Ferrer", "--data", data, typed="four unlike plain words\n")
    assert (first.returncode, first.stdout) == (0, f"maud can sign in as manager of {data}.\n")
    second = run("add-person", "nils", "Nils Ferrer", "--data", data, typed="four unlike plain words\n")
    assert (second.returncode, "has people already" in second.stderr) == (1, True)

    stranger = run("publish-book", str(BOOK), "--by", "nils", "--data", data)
    assert (stranger.returncode, "nils is no manager" in stranger.stderr) == (1, True)
    published = run("publish-book", str(BOOK), "--by", "maud", "--data", data)
    assert (published.returncode, "in force as book 1" in published.stdout) == (0, True)

    port = free_port()
    with running(port, tmp_path / "log", "serve", "--data", data):
        who = {"name": "maud", "password": "four unlike plain words"}
        assert requests.post(f"http://127.0.0.1:{port}/api/session", json=who, timeout=20).status_code == 200
        demo = {"name": "imogen", "password": "blue-ledger"}
        assert requests.post(f"http://127.0.0.1:{port}/api/session", json=demo, timeout=20).status_code == 401


def test_passwords_are_not_sent_over_the_net_in_the_clear(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["serve", "--data", str(tmp_path), "--url", "http://desk.example"]) == 1
    assert "in the clear" in capsys.readouterr().err


def test_a_sound_book_is_counted(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check-book", str(BOOK)]) == 0
    counts = dict(line.rsplit(maxsplit=1) for line in capsys.readouterr().out.splitlines())
    assert counts["options"] == "35"
    assert counts["variants that can be built"] == "12674092032"
    assert counts["with neither part nor approval"] == "81572400"


def test_an_unsound_book_has_every_mistake_named_with_its_place(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "wrong.book"
    file.write_text(
        BOOK.read_text(encoding="utf-8").replace("  body: body\n", "  body: bodywork\n", 1), encoding="utf-8"
    )
    assert main(["check-book", str(file)]) == 1
    said = capsys.readouterr().err.splitlines()
    assert any(line.startswith(f"{file}:") for line in said)
    assert said[-1].endswith("to mend.")


@pytest.mark.parametrize("content", [None, b"\xff\xfe\x00"])
def test_a_file_that_cannot_be_read_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], content: bytes | None
) -> None:
    file = tmp_path / "a.book"
    if content is not None:
        file.write_bytes(content)
    assert main(["check-book", str(file)]) == 1
    assert str(file) in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ([], "COMMAND"),
        (["fly"], "invalid choice"),
        (["demo", "--port", "99999"], "is no port"),
        (["demo", "--port", "-1"], "is no port"),
        (["demo", "--now", "yesterday"], "is no moment"),
        (["add-person", "Maud!", "Maud Ferrer"], "small letters"),
    ],
)
def test_bad_arguments_are_told_without_a_traceback(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    assert said in capsys.readouterr().err
