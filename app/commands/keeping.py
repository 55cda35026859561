"""`backup` and `restore`: the whole desk out of its folder and back into one."""

from __future__ import annotations

import argparse
from contextlib import AbstractContextManager, nullcontext
from pathlib import Path

from app import clock
from app.commands.desk import claimed
from app.commands.stop import Stop, about_folder
from app.services import keeping


def back_up(given: argparse.Namespace) -> int:
    """Everything as it is now into one file; the desk may go on being served."""
    try:
        made = keeping.back_up(given.data, given.to, clock.running())
    except keeping.NotKept as refused:
        raise Stop(str(refused)) from None
    except OSError as error:
        raise _about(error, given.to) from None
    print(f"{given.data} is backed up in {made.path}: {_files(made.files)}, {made.bytes} bytes before packing.")
    return 0


def restore(given: argparse.Namespace) -> int:
    """A desk out of a backup, where nobody serves the folder."""
    data = given.data.absolute()
    try:
        with _alone(data):
            made = keeping.restore(given.archive, data, clock.running(), replace=given.replace)
    except keeping.NotKept as refused:
        raise Stop(str(refused)) from None
    except OSError as error:
        raise _about(error, given.archive) from None
    if made.aside is not None:
        print(f"What was in {given.data} lies in {made.aside} now.")
    print(f"{given.archive} is restored in {given.data}: {_files(made.files)}, every checksum right.")
    return 0


def _files(count: int) -> str:
    return "1 file" if count == 1 else f"{count} files"


def _alone(data: Path) -> AbstractContextManager[None]:
    """No server has it, and none can get it meanwhile; what isn't there can't be had by one."""
    return claimed(data) if data.is_dir() else nullcontext()


def _about(error: OSError, asked: Path) -> Stop:
    at = Path(error.filename) if isinstance(error.filename, str) else asked
    return about_folder(at, error) if at.is_dir() else Stop(f"{at} can't be used ({error.strerror}). Name another.")
