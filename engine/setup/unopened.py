"""Words on devices that are plugged in but could not be opened: how many, which, what helps."""

from __future__ import annotations

from collections.abc import Sequence

from engine.pedals.identity import short_name
from engine.pedals.rig import Rig
from engine.pedals.sdl import Unopened

DENIED = "You need the group 'input', or the udev rule in the README."
"""What helps where the user may not read a device."""
HELD = "Close other programs that use pedals or wheels, then plug in again."
"""What helps where a device may be read but cannot be opened."""


def unopened_words(devices: Sequence[Unopened]) -> str:
    """One line on the devices that could not be opened, and what helps; empty if there are none."""
    if not devices:
        return ""
    first = next((device for device in devices if device.denied), devices[0])
    more = len(devices) - 1
    named = short_name(first.name) + (f" and {more} more" if more else "")
    count = f"{len(devices)} devices" if more else "1 device"
    helps = DENIED if first.denied else HELD
    return f"{count} could not be opened ({named}). {helps}"


def unopened_note(rig: Rig) -> str:
    """One line on the devices of a rig that could not be opened; empty if there are none."""
    return "" if rig.devices is None else unopened_words(rig.devices.unopened)
