"""A desk run for real: behind a TLS proxy, its log naming nobody, its folder its own, backed up while it works."""

from __future__ import annotations

import ctypes
import os
import re
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
import requests

from app import clock
from app.cli import main
from app.config import CHEAP
from app.domain.asking.people import Person, Role
from app.factory import hasher_of
from app.services.books import publishing
from app.services.people import signing_in
from app.store import folder
from app.store.db import Store
from tests.support.serving import TOP, free_port, running

WORDS = "four unlike plain words"


@dataclass(frozen=True)
class Served:
    """A desk that is served for real: `log` is what it has written so far."""

    data: Path
    url: str
    log: Path

    def sign_in(self, name: str = "maud", password: str = WORDS, **headers: str) -> requests.Response:
        who = {"name": name, "password": password}
        sent = {key.replace("_", "-"): value for key, value in headers.items()}
        return requests.post(f"{self.url}/api/session", json=who, headers=sent, timeout=30)

    def signed_in(self) -> dict[str, str]:
        """The headers of the manager; the cookie by hand, because over plain HTTP it would not be sent."""
        answer = self.sign_in()
        cookie = answer.headers["Set-Cookie"].split(";")[0]
        return {"Cookie": cookie, "X-Forgery-Token": answer.json()["forgery_token"]}


def set_up(data: Path) -> None:
    """A manager and a book, nothing of the demo firm."""
    data.mkdir(mode=0o700)
    store, now = Store(data / folder.DATABASE), clock.running()
    maud = Person("maud", "Maud Ferrer", Role.MANAGER)
    signing_in.add_person(store, hasher_of(CHEAP), maud, WORDS, now)
    book = TOP / "demo" / "skerry.book"
    publishing.publish_book(store, maud, book.read_text(encoding="utf-8"), now, file=book.name, note="")
    store.close()
    (data / folder.DATABASE).chmod(0o600)


@contextmanager
def without_roots_rights() -> Iterator[None]:
    """Root may write anywhere: until the block is left, the disk takes him for nobody (Linux, setfsuid)."""
    libc = ctypes.CDLL(None)
    if os.geteuid() == 0:
        libc.setfsuid(65534)
    try:
        yield
    finally:
        libc.setfsuid(os.geteuid())


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """Behind a proxy at 127.0.0.1 that people reach as https://desk.example."""
    where = tmp_path_factory.mktemp("served")
    set_up(where / "data")
    port, log = free_port(), where / "log"
    command = ("serve", "--data", str(where / "data"), "--url", "https://desk.example/", "--proxy", "127.0.0.1")
    with running(port, log, *command):
        yield Served(where / "data", f"http://127.0.0.1:{port}", log)


def test_its_manager_can_sign_in_and_nobody_of_the_demo(served: Served) -> None:
    assert served.sign_in().status_code == 200
    assert served.sign_in("imogen", "blue-ledger").status_code == 401


def test_behind_the_proxy_the_cookie_travels_over_tls_alone(served: Served) -> None:
    cookie = served.sign_in().headers["Set-Cookie"]
    assert cookie.startswith("__Host-desk=")
    assert {"Secure", "HttpOnly", "SameSite=Strict", "Path=/"} <= set(cookie.split("; "))


def test_the_page_as_people_reach_it_may_change_things_and_the_address_behind_the_proxy_too(served: Served) -> None:
    for origin, answered in (("https://desk.example", 200), ("https://elsewhere.example", 403)):
        assert served.sign_in(Origin=origin).status_code == answered


def test_the_proxy_is_believed_about_its_last_hop_and_no_further(served: Served) -> None:
    """Whoever writes his own X-Forwarded-For only puts something before what the proxy adds."""
    served.sign_in("maud", "wrong", X_Forwarded_For="198.51.100.99, 203.0.113.7")
    with closing(sqlite3.connect(served.data / folder.DATABASE)) as db:
        (address,) = db.execute("SELECT address FROM failed_try ORDER BY id DESC").fetchone()
    assert address == "203.0.113.7"


def test_only_its_own_account_can_look_into_the_folder(served: Served) -> None:
    lying = {path.name: path.stat().st_mode & 0o077 for path in (served.data, *served.data.iterdir())}
    assert {folder.DATABASE, f"{folder.DATABASE}-wal", folder.LOCK} <= set(lying)
    assert set(lying.values()) == {0}


def test_a_second_server_on_the_same_folder_is_refused(served: Served, capsys: pytest.CaptureFixture[str]) -> None:
    for command in ("serve", "demo"):
        assert main([command, "--data", str(served.data), "--port", str(free_port())]) == 1
        told = capsys.readouterr().err
        assert re.search(r"is being served already \(process \d+\)\. Stop that, or give another folder", told)


def test_starting_over_spares_a_folder_that_is_served(served: Served) -> None:
    assert main(["demo", "--reset", "--data", str(served.data), "--port", str(free_port())]) == 1
    assert served.sign_in().status_code == 200


def test_it_is_backed_up_while_it_is_served_and_restored_only_elsewhere(
    served: Served, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    archive = tmp_path / "desk.tar.gz"
    assert main(["backup", str(archive), "--data", str(served.data)]) == 0
    assert re.search(r"is backed up in .*desk\.tar\.gz: 2 files, \d+ bytes", capsys.readouterr().out)

    assert main(["restore", str(archive), "--data", str(served.data), "--replace"]) == 1
    assert "is being served already" in capsys.readouterr().err

    fresh = tmp_path / "fresh"
    assert main(["restore", str(archive), "--data", str(fresh)]) == 0
    assert "every checksum right" in capsys.readouterr().out
    with closing(sqlite3.connect(fresh / folder.DATABASE)) as db:
        assert db.execute("SELECT name FROM person").fetchall() == [("maud",)]

    assert main(["restore", str(archive), "--data", str(fresh)]) == 1
    assert "say --replace" in capsys.readouterr().err
    assert main(["restore", str(archive), "--data", str(fresh), "--replace"]) == 0
    assert "lies in" in capsys.readouterr().out


#: What a person would not want to find in a log.
PRIVATE = ("Quillfeather", "01632 960 555", "quill@feather.example", "Weir Cottages", "T2-05900", "GB999999973", "maud")


def test_the_log_names_nobody_whatever_happens(served: Served) -> None:
    """Refusals, faults of ours and made-up addresses, each with everything private in it."""
    me, mine = served.signed_in(), PRIVATE
    customer = {"name": mine[0], "telephone": mine[1], "email": mine[2], "address": mine[3], "tax_number": mine[5]}
    wish = {"customer": {**customer, "country": "GB"}, "donor": {"number_text": mine[4]}, "note": " ".join(mine)}
    key = {"Idempotency-Key": "the-first-of-the-log"}
    assert requests.post(f"{served.url}/api/enquiries", json=wish, headers=me | key, timeout=30).status_code == 201
    assert (
        requests.post(f"{served.url}/api/enquiries", json={**wish, "customer": mine[0]}, headers=me).status_code >= 400
    )
    assert served.sign_in(mine[0], mine[2]).status_code in (401, 429)
    for path in (f"/api/enquiries?q={mine[0]}", f"/api/quotations/{mine[0]}", f"/{mine[0]}/{mine[2]}"):
        requests.get(served.url + path, headers=me, timeout=30)
    with closing(sqlite3.connect(served.data / folder.DATABASE)) as db:
        db.execute("ALTER TABLE counters RENAME TO gone")
    broken = requests.post(
        f"{served.url}/api/enquiries", json=wish, headers=me | {"Idempotency-Key": "the-second-of-the-log"}, timeout=30
    )
    with closing(sqlite3.connect(served.data / folder.DATABASE)) as db:
        db.execute("ALTER TABLE gone RENAME TO counters")
    assert broken.status_code == 500
    (number,) = re.findall(r"[0-9a-f]{8}", broken.json()["repair"])
    written = served.log.read_text()
    assert f"incident {number}: OperationalError" in written
    assert [word for word in (*PRIVATE, "four unlike") if word in written] == []


@pytest.mark.parametrize("command", ["serve", "backup"])
def test_a_folder_that_is_none_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str], command: str) -> None:
    (tmp_path / "file").write_text("x")
    where = [str(tmp_path / "to.tar.gz")] if command == "backup" else []
    assert main([command, *where, "--data", str(tmp_path / "file")]) == 1
    assert str(tmp_path / "file") in capsys.readouterr().err


@pytest.mark.parametrize(
    ("spoil", "told"),
    [
        (lambda file: file.write_bytes(b"not a database " * 1000), "is no database of ours"),
        (lambda file: file.write_bytes(file.read_bytes()[:6000]), "is damaged"),
        (lambda file: (file.unlink(), file.mkdir()), "can't be opened"),
        (lambda file: newer(file), r"last used by a newer Bodywright \(m9999_later\)"),
    ],
)
def test_a_database_that_cannot_be_used_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], spoil: object, told: str
) -> None:
    file = tmp_path / "data" / folder.DATABASE
    file.parent.mkdir(mode=0o700)
    Store(file).close()
    spoil(file)  # type: ignore[operator]
    assert main(["demo", "--data", str(file.parent), "--port", str(free_port())]) == 1
    assert re.search(told, capsys.readouterr().err)


def newer(file: Path) -> None:
    with closing(sqlite3.connect(file)) as db, db:
        db.execute("INSERT INTO migrations VALUES ('m9999_later')")


def test_a_folder_that_others_can_look_into_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "data").mkdir()
    (tmp_path / "data").chmod(0o755)
    main(["publish-book", "none.book", "--by", "nobody", "--data", str(tmp_path / "data")])
    assert f"chmod -R go= {tmp_path / 'data'}" in capsys.readouterr().err


@pytest.fixture
def anybodys() -> Iterator[Path]:
    """A folder that other accounts can reach, as pytest's own is not."""
    with tempfile.TemporaryDirectory(dir="/tmp") as made:
        yield Path(made)
        Path(made).chmod(0o700)


def test_a_folder_of_another_account_is_told(anybodys: Path, capsys: pytest.CaptureFixture[str]) -> None:
    import app.commands.serving  # noqa: F401  (afterwards there may be no right to read our own code)

    anybodys.chmod(0o555)
    with without_roots_rights():
        assert main(["demo", "--data", str(anybodys / "data"), "--port", str(free_port())]) == 1
    told = f"The folder {anybodys / 'data'} can't be used (Permission denied). Give another with --data.\n"
    assert capsys.readouterr().err == told


def test_a_database_that_may_not_be_written_is_told(anybodys: Path, capsys: pytest.CaptureFixture[str]) -> None:
    import app.commands.books  # noqa: F401

    Store(anybodys / folder.DATABASE).close()
    (anybodys / folder.DATABASE).chmod(0o444)
    anybodys.chmod(0o555)
    with without_roots_rights():
        assert main(["publish-book", "any.book", "--by", "maud", "--data", str(anybodys)]) == 1
    assert f"{anybodys / folder.DATABASE} can't be written: you are not its owner" in capsys.readouterr().err
