"""The commands, run as a person runs them: what they print, and how they end."""

from __future__ import annotations

import io
import re
import socket
import sqlite3
import time
from contextlib import closing
from pathlib import Path

import pytest
import requests

from app.cli import main
from app.store import folder
from demo.people import PEOPLE
from tests.support.serving import free_port, running

TOP = Path(__file__).resolve().parents[2]
BOOK = TOP / "demo" / "skerry.book"


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
        wrong = {"name": "imogen", "password": "wrong"}
        forged = {"X-Forwarded-For": "203.0.113.7"}
        requests.post(f"http://127.0.0.1:{port}/api/session", json=wrong, headers=forged, timeout=20)
        assert failed_from(data) == ["127.0.0.1"]  # nobody is believed who was not named with --proxy
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


def failed_from(data: Path) -> list[str]:
    """The addresses from which signing in failed."""
    with closing(sqlite3.connect(data / folder.DATABASE)) as db:
        return [row[0] for row in db.execute("SELECT address FROM failed_try ORDER BY id")]


def signed_in(port: int) -> requests.Session:
    desk = requests.Session()
    answer = desk.post(f"http://127.0.0.1:{port}/api/session", json={"name": "imogen", "password": "blue-ledger"})
    desk.headers["X-Forgery-Token"] = answer.json()["forgery_token"]
    return desk


def test_a_taken_port_is_told_before_anything_is_loaded(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert main(["demo", "--port", str(port), "--data", str(tmp_path / "data")]) == 1
    told = capsys.readouterr().err
    assert f"Port {port} on 127.0.0.1 can't be had" in told
    assert f"PORT={port + 1}" in told
    assert not (tmp_path / "data").exists()


def test_starting_over_throws_away_the_desks_own_files_and_no_others(tmp_path: Path) -> None:
    for name in ("desk.sqlite3", "desk.sqlite3-wal", "letter.txt"):
        (tmp_path / name).write_text("x")
    folder.forget(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["letter.txt"]


def test_serving_needs_a_manager_and_a_book_and_says_how(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    data = str(tmp_path / "data")

    def told(*arguments: str, typed: str = "") -> tuple[int, str, str]:
        monkeypatch.setattr("sys.stdin", io.StringIO(typed))
        ended = main([*arguments, "--data", data])
        return ended, *capsys.readouterr()

    code, _, said = told("serve")
    assert (code, "add-person" in said, "publish-book" in said) == (1, True, True)
    code, _, said = told("add-person", "maud", "Maud Ferrer", typed="short\n")
    assert (code, "at least 12 characters" in said) == (1, True)
    code, wrote, _ = told("add-person", "maud", "Maud Ferrer", typed="four unlike plain words\n")
    assert (code, wrote) == (0, f"maud can sign in as manager of {data}.\n")
    code, _, said = told("add-person", "nils", "Nils Ferrer", typed="four unlike plain words\n")
    assert (code, "has people already" in said) == (1, True)
    code, _, said = told("publish-book", str(BOOK), "--by", "nils")
    assert (code, "nils is no manager" in said) == (1, True)
    code, _, said = told("serve")
    assert (code, "publish-book" in said) == (1, True)
    code, wrote, _ = told("publish-book", str(BOOK), "--by", "maud")
    assert (code, "in force as book 1" in wrote) == (0, True)


def test_passwords_are_not_sent_over_the_net_in_the_clear(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["serve", "--data", str(tmp_path), "--url", "http://desk.example"]) == 1
    assert "in the clear" in capsys.readouterr().err


def test_a_sound_book_is_counted(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check-book", str(BOOK)]) == 0
    counted = capsys.readouterr().out.partition("\n\n")[0]
    counts = dict(re.split(r"  +", line, maxsplit=1) for line in counted.splitlines())
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
