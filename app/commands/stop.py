"""What keeps a command from going on, in plain words with the way to mend it. Decides nothing and imports little."""

from __future__ import annotations

import errno
from pathlib import Path


class Stop(Exception):
    """A command that can't go on: what is wrong, and how to mend it."""


#: What SQLite says, and what it means to whoever started us.
DATABASE_SAYS = {
    "file is not a database": "{file} is no database of ours. Restore the last backup, or take another folder: --data.",
    "malformed": "{file} is damaged. Stop here, keep a copy of the folder, and restore the last backup.",
    "readonly": "{file} can't be written: you are not its owner, or the disk is mounted read-only. Become its owner.",
    "unable to open": "{file} can't be opened: see who owns the folder and what is there, or take another: --data.",
    "disk is full": "There is no room left on the disk of {folder}. Make room; nothing that was confirmed is lost.",
    "disk I/O": "The disk of {folder} fails ({error}). Look at the disk, then restore the last backup elsewhere.",
    "locked": "Another program holds {file} and doesn't let go. Stop it, then try again.",
}


def about_folder(folder: Path, error: OSError) -> Stop:
    """A folder that can't be used."""
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return Stop(DATABASE_SAYS["disk is full"].format(folder=folder))
    return Stop(f"The folder {folder} can't be used ({error.strerror}). Give another with --data.")


def about_database(file: Path, error: Exception) -> Stop:
    """A database that can't be used."""
    said = str(error)
    for part, sentence in DATABASE_SAYS.items():
        if part in said:
            return Stop(sentence.format(file=file, folder=file.parent, error=said))
    return Stop(f"{file} can't be used ({said}). Restore the last backup, or give another folder with --data.")
