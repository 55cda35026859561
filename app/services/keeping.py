"""Backup and restore: the database and every other file of the data folder in one archive, with their checksums.

The archive is an ordinary gzipped tar; its first member, `manifest.json`, names every other with its size and SHA-256.
Neither half a backup nor half a restored desk is ever found under its final name.
"""

from __future__ import annotations

import json
import os
import shutil
import sqlite3
import tarfile
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from hashlib import file_digest
from io import BytesIO
from pathlib import Path, PurePosixPath
from typing import IO, Any

from app.store import folder, snapshot

FORMAT = 1
MANIFEST = "manifest.json"
LARGEST_MANIFEST = 50_000_000


class NotKept(Exception):
    """It can't be backed up or restored: the text says why, and how to mend it."""


@dataclass(frozen=True, slots=True)
class Kept:
    """Where it is now, how many files and bytes it holds; `aside` is where a replaced folder went."""

    path: Path
    files: int
    bytes: int
    aside: Path | None = None


def back_up(data: Path, to: Path, now: datetime) -> Kept:
    """Everything in `data` as of now into the new file `to`, or into a file named by the moment where `to` is a folder.

    The desk may go on being served meanwhile. Raises NotKept, OSError.
    """
    if not (data / folder.DATABASE).is_file():
        raise NotKept(f"There is no desk in {data}. Name its folder with --data.")
    archive = to / f"desk-{now:%Y%m%dT%H%M%SZ}.tar.gz" if to.is_dir() else to
    if archive.exists():
        raise NotKept(f"{archive} is there already and is not written over. Name another file.")
    if archive.resolve().is_relative_to(data.resolve()):
        raise NotKept(
            f"{archive} lies in the folder that it would hold. Name a file outside {data}, best on another disk."
        )
    with _beside(archive) as staged:
        described = _stage(data, staged / "data")
        _pack(staged, described, now)
        os.replace(staged / "archive", archive)
    _settle(archive.parent)
    return _kept(archive, described)


def restore(archive: Path, data: Path, now: datetime, *, replace: bool = False) -> Kept:
    """The desk in `archive` as the folder `data`, once every checksum and the database itself were found sound.

    A folder that holds anything is left alone, or with `replace` put aside, never removed. Raises NotKept, OSError.
    """
    if _holds_anything(data) and not replace:
        raise NotKept(
            f"{data} is not empty. Restore into another folder with --data, or say --replace: "
            "what is there is then put aside."
        )
    with _beside(data) as staged:
        described = _unpack(archive, staged / "data")
        _refuse_unsound(staged / "data" / folder.DATABASE, archive)
        aside = _put_in_place(staged / "data", data, now)
    _settle(data.parent)
    return _kept(data, described, aside)


def _stage(data: Path, staged: Path) -> dict[str, Any]:
    """A copy that stands still: what is hashed is what is packed."""
    staged.mkdir()
    try:
        snapshot.copy(data / folder.DATABASE, staged / folder.DATABASE)
    except sqlite3.Error as error:
        raise NotKept(f"The database in {data} can't be read ({error}). Restore the last backup.") from None
    for path in folder.files(data):
        (staged / path).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(data / path, staged / path)
    return {path.as_posix(): _described(staged / path) for path in (Path(folder.DATABASE), *folder.files(staged))}


def _described(path: Path) -> dict[str, Any]:
    with path.open("rb") as file:
        return {"bytes": path.stat().st_size, "sha256": file_digest(file, "sha256").hexdigest()}


def _pack(staged: Path, described: Mapping[str, Any], now: datetime) -> None:
    manifest = {"format": FORMAT, "made_at": now.isoformat(), "files": described}
    with (staged / "archive").open("wb") as file:
        with tarfile.open(fileobj=file, mode="w:gz", compresslevel=6) as tar:
            _add(tar, MANIFEST, json.dumps(manifest, indent=1, ensure_ascii=False).encode(), now)
            for name in described:
                tar.add(staged / "data" / name, arcname=f"data/{name}", filter=_nobodys)
        file.flush()
        os.fsync(file.fileno())


def _add(tar: tarfile.TarFile, name: str, content: bytes, now: datetime) -> None:
    member = tarfile.TarInfo(name)
    member.size, member.mtime, member.mode = len(content), int(now.timestamp()), 0o600
    tar.addfile(member, BytesIO(content))


def _nobodys(member: tarfile.TarInfo) -> tarfile.TarInfo:
    """Who owned it here means nothing elsewhere."""
    member.uid = member.gid = 0
    member.uname = member.gname = ""
    member.mode = 0o600
    return member


def _unpack(archive: Path, to: Path) -> Mapping[str, Any]:
    to.mkdir(mode=folder.OWNER_ALONE)
    try:
        with tarfile.open(archive, "r:gz") as tar:
            described = _manifest(tar, archive)
            for name, told in described.items():
                _unpack_one(tar, name, told, to, archive)
            return described
    except (tarfile.TarError, EOFError, KeyError, ValueError, TypeError, AttributeError) as error:
        raise NotKept(f"{archive} is no whole backup ({error}). Take another.") from None


def _manifest(tar: tarfile.TarFile, archive: Path) -> Mapping[str, Any]:
    manifest = json.loads(_member(tar, MANIFEST).read(LARGEST_MANIFEST))
    if manifest["format"] != FORMAT:
        raise NotKept(f"{archive} was made by a newer Bodywright. Restore it with that one.")
    if folder.DATABASE not in manifest["files"]:
        raise NotKept(f"{archive} holds no database. Take another.")
    described: Mapping[str, Any] = manifest["files"]
    return described


def _unpack_one(tar: tarfile.TarFile, name: str, told: Mapping[str, Any], to: Path, archive: Path) -> None:
    pure = PurePosixPath(name)
    if pure.is_absolute() or ".." in pure.parts:
        raise NotKept(f"{archive} would write outside its folder ({name}). It is no backup of ours.")
    path = to / pure
    path.parent.mkdir(parents=True, exist_ok=True, mode=folder.OWNER_ALONE)
    with path.open("wb") as file:
        shutil.copyfileobj(_member(tar, f"data/{name}"), file)
        file.flush()
        os.fsync(file.fileno())
    path.chmod(0o600)
    if _described(path) != told:
        raise NotKept(f"{archive} was damaged: {name} is not what was packed. Take another.")


def _member(tar: tarfile.TarFile, name: str) -> IO[bytes]:
    content = tar.extractfile(name)
    if content is None:
        raise KeyError(name)
    return content


def _refuse_unsound(database: Path, archive: Path) -> None:
    try:
        found = snapshot.faults(database)
    except sqlite3.Error as error:
        found = [str(error)]
    if found:
        raise NotKept(f"The database in {archive} is not sound: {'; '.join(found[:5])}. Nothing was restored.")


def _put_in_place(fresh: Path, data: Path, now: datetime) -> Path | None:
    """Put what is there aside, unless it is empty, and the fresh folder in its place. Raises NotKept."""
    aside = data.with_name(f"{data.name}.before-{now:%Y%m%dT%H%M%SZ}") if _holds_anything(data) else None
    if aside is not None and aside.exists():
        raise NotKept(f"{aside} is there already. Wait a second and try again.")
    if aside is not None:
        os.replace(data, aside)
    elif data.exists():
        (data / folder.LOCK).unlink(missing_ok=True)
        data.rmdir()
    os.replace(fresh, data)
    return aside


def _holds_anything(data: Path) -> bool:
    return data.is_dir() and any(path.name != folder.LOCK for path in data.iterdir())


@contextmanager
def _beside(final: Path) -> Iterator[Path]:
    """A folder on the same disk as `final`, gone afterwards, so that putting in place is one step."""
    final.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix=f".{final.name}.", dir=final.parent) as made:
        yield Path(made)


def _settle(where: Path) -> None:
    """The new name itself onto the disk."""
    handle = os.open(where, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _kept(path: Path, described: Mapping[str, Any], aside: Path | None = None) -> Kept:
    return Kept(path, len(described), sum(told["bytes"] for told in described.values()), aside)
