"""A backup holds the whole desk, and only a whole and sound one is restored."""

from __future__ import annotations

import json
import shutil
import sqlite3
import tarfile
import threading
from collections.abc import Iterator
from contextlib import closing
from hashlib import sha256
from io import BytesIO
from pathlib import Path

import pytest

from app.services import keeping
from app.store import folder, snapshot
from app.store.db import Store
from tests.app.desk import NOW, S3_ROADSTER, Desk


@pytest.fixture(scope="module")
def worked(set_up_store: Store, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A desk's folder with an issued quotation, and a picture that somebody laid beside the database."""
    data = tmp_path_factory.mktemp("worked") / "data"
    (data / "files").mkdir(parents=True)
    (data / "files" / "ring.jpg").write_bytes(b"a picture of a ring" * 1000)
    desk = Desk(Store(shutil.copy(set_up_store.path, data / folder.DATABASE)))
    desk.issue(desk.drafted((S3_ROADSTER, 1)))
    desk.store.close()
    return data


@pytest.fixture
def data(worked: Path, tmp_path: Path) -> Path:
    return shutil.copytree(worked, tmp_path / "data")


@pytest.fixture
def desk(data: Path) -> Iterator[Desk]:
    store = Store(data / folder.DATABASE)
    yield Desk(store)
    store.close()


def dump(data: Path) -> list[str]:
    """Every row and every guard of the database as text."""
    with closing(sqlite3.connect(data / folder.DATABASE)) as db:
        return list(db.iterdump())


def backed_up(data: Path, where: Path) -> Path:
    return keeping.back_up(data, where / "desk.tar.gz", NOW).path


def repacked(archive: Path, change: dict[str, bytes]) -> Path:
    """The archive with some of its members replaced."""
    changed = archive.with_name(f"changed-{archive.name}")
    with tarfile.open(archive) as old, tarfile.open(changed, "w:gz") as new:
        for member in old:
            content = change.get(member.name)
            if content is None:
                taken = old.extractfile(member)
                assert taken is not None
                content = taken.read()
            member.size = len(content)
            new.addfile(member, BytesIO(content))
    return changed


def test_restored_into_an_empty_folder_it_is_the_same_desk(data: Path, tmp_path: Path) -> None:
    archive = backed_up(data, tmp_path)
    restored = keeping.restore(archive, tmp_path / "fresh" / "data", NOW)
    assert dump(restored.path) == dump(data)
    assert any('INSERT INTO "papers"' in row for row in dump(restored.path))
    assert (restored.path / "files" / "ring.jpg").read_bytes() == b"a picture of a ring" * 1000
    assert (restored.files, restored.aside) == (2, None)
    assert snapshot.faults(restored.path / folder.DATABASE) == []


def test_a_restored_desk_goes_on_where_the_old_one_stood(data: Path, tmp_path: Path) -> None:
    restored = keeping.restore(backed_up(data, tmp_path), tmp_path / "data-2", NOW)
    again = Desk(Store(restored.path / folder.DATABASE))
    number = again.drafted((S3_ROADSTER, 1))
    assert number == "Q-2026-00002"
    assert again.issue(number).issued


def test_it_is_for_its_owner_alone(data: Path, tmp_path: Path) -> None:
    restored = keeping.restore(backed_up(data, tmp_path), tmp_path / "restored", NOW)
    kinds = {path: path.stat().st_mode & 0o777 for path in (restored.path, *restored.path.rglob("*"))}
    assert {mode for path, mode in kinds.items() if path.is_dir()} == {0o700}
    assert {mode for path, mode in kinds.items() if path.is_file()} == {0o600}


def test_a_backup_names_every_file_with_its_checksum(data: Path, tmp_path: Path) -> None:
    with tarfile.open(backed_up(data, tmp_path)) as tar:
        names = tar.getnames()
        manifest = json.loads(tar.extractfile("manifest.json").read())  # type: ignore[union-attr]
        picture = tar.extractfile("data/files/ring.jpg").read()  # type: ignore[union-attr]
    assert names == ["manifest.json", "data/desk.sqlite3", "data/files/ring.jpg"]
    assert manifest["made_at"] == NOW.isoformat()
    assert manifest["files"]["files/ring.jpg"] == {"bytes": 19_000, "sha256": sha256(picture).hexdigest()}


def test_in_a_folder_it_is_named_by_the_moment(data: Path, tmp_path: Path) -> None:
    (tmp_path / "backups").mkdir()
    assert keeping.back_up(data, tmp_path / "backups", NOW).path.name == "desk-20261102T100000Z.tar.gz"


def test_a_backup_made_while_the_desk_works_is_of_one_moment(desk: Desk, tmp_path: Path) -> None:
    """Each enquiry comes with its history in one transaction: no copy may hold one without the other."""
    done = threading.Event()

    def work() -> None:
        mine = Desk(desk.store)
        while not done.is_set():
            mine.take_down()
        desk.store.close()

    worker = threading.Thread(target=work)
    worker.start()
    try:
        copies = [keeping.back_up(desk.store.path.parent, tmp_path / f"{n}.tar.gz", NOW).path for n in range(5)]
    finally:
        done.set()
        worker.join()
    counted = []
    for number, archive in enumerate(copies):
        restored = keeping.restore(archive, tmp_path / f"restored-{number}", NOW).path
        with closing(sqlite3.connect(restored / folder.DATABASE)) as db:
            (enquiries,), (notes,) = (
                db.execute(f"SELECT count(*) FROM {what}").fetchone()
                for what in ("enquiries", "history WHERE thing = 'enquiry'")
            )
        assert enquiries == notes
        counted.append(enquiries)
    assert counted == sorted(counted)
    assert counted[-1] > 0


def test_a_file_that_is_there_is_not_written_over(data: Path, tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("Dear")
    with pytest.raises(keeping.NotKept, match="is there already and is not written over"):
        keeping.back_up(data, tmp_path / "letter.txt", NOW)
    assert (tmp_path / "letter.txt").read_text() == "Dear"


def test_a_backup_does_not_lie_in_what_it_holds(data: Path) -> None:
    for inside in (data, data / "desk.tar.gz", data / "files"):
        with pytest.raises(keeping.NotKept, match="Name a file outside"):
            keeping.back_up(data, inside, NOW)
    assert folder.files(data) == [Path("files/ring.jpg")]


def test_a_folder_without_a_desk_cannot_be_backed_up(tmp_path: Path) -> None:
    with pytest.raises(keeping.NotKept, match="There is no desk"):
        keeping.back_up(tmp_path, tmp_path / "desk.tar.gz", NOW)


def test_a_folder_that_holds_something_is_left_alone(data: Path, tmp_path: Path) -> None:
    archive, before = backed_up(data, tmp_path), dump(data)
    with pytest.raises(keeping.NotKept, match="is not empty"):
        keeping.restore(archive, data, NOW)
    assert dump(data) == before


def test_what_is_replaced_is_put_aside_and_not_removed(data: Path, tmp_path: Path, desk: Desk) -> None:
    archive, backed = backed_up(data, tmp_path), dump(data)
    desk.take_down(wish=desk.wish("Came Later"))
    desk.store.close()
    later = dump(data)
    restored = keeping.restore(archive, data, NOW, replace=True)
    assert dump(data) == backed
    assert restored.aside is not None
    assert restored.aside.name == f"{data.name}.before-20261102T100000Z"
    assert dump(restored.aside) == later


def test_a_damaged_backup_changes_nothing(data: Path, tmp_path: Path) -> None:
    archive = backed_up(data, tmp_path)
    damaged = repacked(archive, {"data/files/ring.jpg": b"another picture"})
    with pytest.raises(keeping.NotKept, match=r"damaged: files/ring\.jpg is not what was packed"):
        keeping.restore(damaged, tmp_path / "fresh", NOW)
    assert not (tmp_path / "fresh").exists()


@pytest.mark.parametrize("left", [0, 100, 20_000])
def test_half_a_backup_is_none(data: Path, tmp_path: Path, left: int) -> None:
    half = tmp_path / "half.tar.gz"
    half.write_bytes(backed_up(data, tmp_path).read_bytes()[:left])
    with pytest.raises(keeping.NotKept, match="is no whole backup"):
        keeping.restore(half, tmp_path / "fresh", NOW)
    assert not (tmp_path / "fresh").exists()


def test_a_picture_is_no_backup(tmp_path: Path) -> None:
    (tmp_path / "picture.jpg").write_bytes(b"\xff\xd8\xff" * 100)
    with pytest.raises(keeping.NotKept, match="is no whole backup"):
        keeping.restore(tmp_path / "picture.jpg", tmp_path / "fresh", NOW)


def test_nothing_is_written_outside_the_folder(data: Path, tmp_path: Path) -> None:
    outside = {"format": 1, "files": {"desk.sqlite3": {}, "../letter.txt": {}}}
    archive = repacked(backed_up(data, tmp_path), {"manifest.json": json.dumps(outside).encode()})
    with pytest.raises(keeping.NotKept):
        keeping.restore(archive, tmp_path / "fresh", NOW)
    alone = {"format": 1, "files": {"../letter.txt": {}, "desk.sqlite3": {}}}
    archive = repacked(archive, {"manifest.json": json.dumps(alone).encode()})
    with pytest.raises(keeping.NotKept, match="outside its folder"):
        keeping.restore(archive, tmp_path / "fresh", NOW)


def test_a_backup_of_a_newer_release_says_so(data: Path, tmp_path: Path) -> None:
    with closing(sqlite3.connect(data / folder.DATABASE)) as db, db:
        db.execute("INSERT INTO migrations (name) VALUES ('m9999_later')")
    with pytest.raises(keeping.NotKept, match=r"made by a newer Bodywright \(m9999_later\)"):
        keeping.restore(backed_up(data, tmp_path), tmp_path / "fresh", NOW)


def test_a_database_that_is_not_sound_is_not_restored(data: Path, tmp_path: Path) -> None:
    copied = tmp_path / "copied.sqlite3"
    shutil.copy(data / folder.DATABASE, copied)
    with closing(sqlite3.connect(copied)) as db:
        db.execute("PRAGMA foreign_keys=OFF")
        db.execute(
            "INSERT INTO enquiries"
            " (id, reference, customer, donor, note, created_at, created_by, updated_at, version, sought)"
            " VALUES (99, 'E', 98, 97, '', '', '', '2026-11-25T09:00:00.000000+00:00', 1, '')"
        )
        db.commit()
    assert [fault for fault in snapshot.faults(copied) if "customers" in fault] == [
        "enquiries names a customers that is not there"
    ]


def test_only_one_desk_at_a_time_has_the_folder(tmp_path: Path) -> None:
    with folder.claimed(tmp_path):
        with pytest.raises(folder.FolderInUse) as told, folder.claimed(tmp_path):
            pass
        assert told.value.process.isdigit()
    with folder.claimed(tmp_path):
        pass
