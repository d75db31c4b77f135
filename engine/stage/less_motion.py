"""The system's wish for less motion, asked in the background once the first picture is seen."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

LONGEST = 2.0
"""Longest time that a program of the system may take to answer, in s."""
GNOME = ("gsettings", "get", "org.gnome.desktop.interface", "enable-animations")
"""Command that prints "false" where GNOME, or a desktop built on it, is to show no animations."""
MACOS = ("defaults", "read", "com.apple.universalaccess", "reduceMotion")
"""Command that prints "1" where macOS is set to reduce motion."""
KDE_FILE, KDE_GROUP, KDE_KEY = "kdeglobals", "[KDE]", "AnimationDurationFactor"
"""File, group and key in which KDE saves how long animations last; 0 is none."""
CLIENT_AREA_ANIMATION = 0x1042
"""SPI_GETCLIENTAREAANIMATION of SystemParametersInfo: whether Windows animates in windows."""
# All these names are from memory, not checked against each system. A name that is not known there
# is no wish.

Run = Callable[[Sequence[str]], str]
"""Function that runs a command; returns what it printed, "" where it failed or is missing."""


class LessMotion:
    """Whether the system asks for less motion: asked once, while the game goes on."""

    def __init__(self, ask: Callable[[], bool]) -> None:
        """`ask` may take a while; it is called in a thread of its own."""
        self._ask = ask
        self._asked = False
        self._answer: bool | None = None

    @property
    def is_asked_for(self) -> bool:
        """Whether the system asks for less motion; False before it has answered."""
        return self._answer is True

    @property
    def allows_motion(self) -> bool:
        """Whether the system is known not to mind motion: not before it has answered."""
        return self._answer is False

    def begin(self) -> None:
        """Begin to ask, the first time; returns at once."""
        if self._asked:
            return
        self._asked = True
        # Loading it takes a millisecond, which the first picture does not wait for.
        import threading

        threading.Thread(target=self._listen, name="less motion", daemon=True).start()

    def _listen(self) -> None:
        self._answer = self._ask()


def asks_for_less_motion() -> bool:
    """Whether this system asks for less motion; may take up to `LONGEST` for each program."""
    if sys.platform == "win32":
        return not _windows_animates()
    if sys.platform == "darwin":
        return macos_asks(run_command)
    return gnome_asks(run_command) or kde_asks(kde_file(os.environ, Path.home()))


def gnome_asks(run: Run) -> bool:
    """Whether GNOME's setting asks for no animations."""
    return run(GNOME).strip() == "false"


def macos_asks(run: Run) -> bool:
    """Whether the setting of macOS asks to reduce motion."""
    return run(MACOS).strip() == "1"


def kde_file(environment: Mapping[str, str], home: Path) -> Path:
    """File with KDE's settings, by the XDG Base Directory Specification."""
    return Path(environment.get("XDG_CONFIG_HOME") or home / ".config") / KDE_FILE


def kde_asks(path: Path) -> bool:
    """Whether KDE's settings in a file ask for animations that last no time."""
    try:
        lines = path.read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return False
    group = ""
    for line in map(str.strip, lines):
        key, _, value = line.partition("=")
        if line.startswith("["):
            group = line
        elif (group, key.strip()) == (KDE_GROUP, KDE_KEY):
            return _is_nothing(value)
    return False


def _is_nothing(value: str) -> bool:
    try:
        return float(value) == 0.0
    except ValueError:
        return False


def run_command(command: Sequence[str]) -> str:
    """What a command printed; "" where it is missing, fails, or takes longer than `LONGEST`."""
    import subprocess

    try:
        done = subprocess.run(
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            timeout=LONGEST,
            check=True,
        )
    except (OSError, subprocess.SubprocessError):
        return ""
    return done.stdout.decode(errors="replace")


if sys.platform == "win32":

    def _windows_animates() -> bool:
        """Whether Windows is set to animate in windows; True where it does not say."""
        import ctypes

        animates = ctypes.c_int(1)
        ctypes.windll.user32.SystemParametersInfoW(
            CLIENT_AREA_ANIMATION, 0, ctypes.byref(animates), 0
        )
        return bool(animates.value)
