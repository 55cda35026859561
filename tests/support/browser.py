"""The unpacked Chromium: where it lies and what it needs around it. Laid by .ci/set-up; nothing is fetched here."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

TOP = Path(__file__).resolve().parents[2]
UNPACKED = TOP / ".browser" / "root"
PROGRAM = UNPACKED / "usr" / "lib" / "chromium" / "chromium-headless-shell"

#: The browser looks nothing up and reports nothing: the tests' network is this machine alone.
QUIET = [
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-domain-reliability",
    "--disable-gpu",
    "--disable-quic",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost",
    "--no-first-run",
]


def program() -> Path:
    """The Chromium to start: one named by CHROMIUM, else the unpacked one; FileNotFoundError says how to get it."""
    path = Path(os.environ.get("CHROMIUM") or PROGRAM)
    if not path.exists():
        raise FileNotFoundError(f"No browser at {path}. `make test` fetches one; or name yours with CHROMIUM=…")
    return path


def surroundings() -> dict[str, str]:
    """Environment of the browser and of Playwright's driver: the unpacked libraries and fonts, if there are any."""
    # Some packages still lay their libraries in /lib, which is the same folder only on an installed system.
    folders = [*UNPACKED.glob("usr/lib/*-linux-gnu*"), *UNPACKED.glob("lib/*-linux-gnu*")]
    libraries = [path for folder in folders for path in (folder, folder / "nss", folder / "pulseaudio")]
    found = ":".join(str(p) for p in libraries if p.is_dir())
    if not found:
        return dict(os.environ)
    return {**os.environ, "LD_LIBRARY_PATH": found, "FONTCONFIG_FILE": str(TOP / ".browser" / "fonts.conf")}


@contextmanager
def running_browser() -> Iterator[Browser]:
    """A headless browser, closed at the end. Root can't have Chromium's sandbox; everybody else keeps it."""
    flags = [*QUIET, "--no-sandbox"] if os.geteuid() == 0 else QUIET
    path, around = program(), surroundings()
    with _environment(around):
        playwright = sync_playwright().start()
    try:
        with playwright.chromium.launch(executable_path=path, args=flags, env=dict(around)) as browser:
            yield browser
    finally:
        playwright.stop()


@contextmanager
def _environment(wanted: dict[str, str]) -> Iterator[None]:
    """Playwright's driver takes its environment from ours and has no setting for it; ours is put back at once."""
    before = dict(os.environ)
    os.environ.update(wanted)
    try:
        yield
    finally:
        os.environ.clear()
        os.environ.update(before)
