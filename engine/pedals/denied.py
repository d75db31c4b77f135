"""Joystick devices that the user may not read, found in the files of a Linux system."""

from __future__ import annotations

import os
from pathlib import Path

from engine.pedals.identity import printable

JOYSTICK = "E:ID_INPUT_JOYSTICK=1"
"""Line by which udev tells that an input device is a joystick, pedals and wheels included."""


def denied_devices(root: Path = Path("/")) -> list[str]:
    """Names of the joystick devices whose event nodes the user may not read.

    SDL leaves such devices out without a word. `root` is the root of the file system; on a system
    that has no such files the list is empty.
    """
    devices = sorted((root / "sys/class/input").glob("event*"))
    return [
        printable(_text(device / "device/name").strip())
        for device in devices
        if _is_denied(root / "dev/input" / device.name) and _is_joystick(device, root)
    ]


def _is_denied(node: Path) -> bool:
    # Not every system can be asked for the effective user: Windows, which Wine runs on such files.
    effective = os.access in os.supports_effective_ids
    return os.access(node, os.F_OK) and not os.access(node, os.R_OK, effective_ids=effective)


def _is_joystick(device: Path, root: Path) -> bool:
    number = _text(device / "dev").strip()
    return JOYSTICK in _text(root / "run/udev/data" / f"c{number}").splitlines()


def _text(path: Path) -> str:
    """Text of a file; empty if it cannot be read."""
    try:
        return path.read_text(encoding="utf-8", errors="backslashreplace")
    except OSError:
        return ""
