"""The folder of current build sheets as it lies on the disk, beside the database. Opens no database, draws nothing.

A file is there whole or not at all: whoever opens it while it is written anew sees the one before.
"""

from __future__ import annotations

import os
from pathlib import Path

FOLDER = "current-sheets"
INDEX = "index.html"


def there(folder: Path) -> frozenset[str]:
    """Names of the sheets that lie there."""
    return frozenset(path.name for path in folder.glob("*.pdf")) if folder.is_dir() else frozenset()


def write(folder: Path, name: str, content: bytes) -> None:
    """Raises OSError."""
    folder.mkdir(mode=0o700, exist_ok=True)
    fresh = folder / f".{name}"
    fresh.write_bytes(content)
    os.replace(fresh, folder / name)


def remove(folder: Path, names: frozenset[str]) -> None:
    for name in names:
        (folder / name).unlink(missing_ok=True)


def forget(folder: Path) -> None:
    """All that the desk laid there; a folder that holds anything else stays."""
    remove(folder, there(folder) | {INDEX})
    if folder.is_dir() and not any(folder.iterdir()):
        folder.rmdir()
