"""Builds the programs that need no Python: a folder and a zip of it, in `dist/`.

    python .package/build.py

Made for the system it runs on, of what is installed there (`pip install -e '.[package]'`).
"""

from __future__ import annotations

import os
import platform
import shutil
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
TOP = HERE.parent
sys.path[:0] = [str(TOP), str(HERE)]

from archive import files_in, write_zip  # noqa: E402
from licences import LicenceError, gather  # noqa: E402

from engine import __version__  # noqa: E402

DIST = TOP / "dist"
WORK = TOP / "build" / "programs"
NAME = "stillfoot"
BESIDE = {
    "win32": ("START.txt", "make-shortcut.cmd", "make-shortcut.js"),
    "linux": ("START.txt", "add-to-menu.sh", "stillfoot.desktop"),
}
"""Files of `.package/beside` that stand beside the programs, by system."""


def main() -> int:
    """Build both; print what was made. Returns the exit code."""
    try:
        from PyInstaller.__main__ import run as freeze
    except ModuleNotFoundError:
        print("build: expected PyInstaller; run: pip install -e '.[package]'", file=sys.stderr)
        return 2
    os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
    folder = DIST / NAME
    shutil.rmtree(folder, ignore_errors=True)
    paths = ["--distpath", str(DIST), "--workpath", str(WORK)]
    freeze([str(HERE / "stillfoot.spec"), "--noconfirm", "--log-level", "ERROR", *paths])
    try:
        unknown = gather(folder, folder / "licences")
    except LicenceError as error:
        print(f"build: {error}", file=sys.stderr)
        return 2
    for name in BESIDE.get(sys.platform, ("START.txt",)):
        shutil.copy(HERE / "beside" / name, folder)
    shutil.copy(HERE / "stillfoot.png", folder)
    packed = DIST / f"{NAME}-{__version__}-{system()}.zip"
    write_zip(folder, packed)
    size = sum(path.lstat().st_size for path in files_in(folder))
    for path, there in ((folder, size), (packed, packed.stat().st_size)):
        print(f"{path.relative_to(TOP).as_posix():44}{there / 1e6:8.1f} MB")
    for name in unknown:
        print(f"licence of {name} is not known: add it to .package/licences.py")
    return 0


def system() -> str:
    """System and processor that the programs are for, such as "linux-x86_64"."""
    names = {"darwin": "macos"}
    name = platform.system().lower()
    return f"{names.get(name, name)}-{platform.machine().lower()}"


if __name__ == "__main__":
    sys.exit(main())
