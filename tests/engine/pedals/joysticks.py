"""Joysticks as SDL lists them and pygame opens them, plugged in and out by hand.

Tried on both builds, and so it is here: a device opened twice is one object; it is closed when
that object is collected, or by one quit for each opening; closed ones raise pygame.error; one
that was pulled out goes on answering, each axis with its opening value.
"""

from __future__ import annotations

import weakref
from collections.abc import Sequence

import pygame

from engine.pedals.identity import short_guid
from engine.pedals.listing import Listed, shown_name
from engine.pedals.sdl import Devices

GUID = "0300beef6d04000099c2000011010000"


class Pad:
    """A device: `values` are where its axes are, `opening` is what they read when it is opened.

    On some systems axes open at 0.0 and tell where they are once they move: give `opening`.
    """

    def __init__(
        self,
        *values: float,
        name: str | bytes = "Pedals",
        guid: str = GUID,
        buttons: int = 0,
        opening: Sequence[float] | None = None,
    ) -> None:
        self.name = name
        self.guid = guid
        self.buttons = buttons
        self.opening = tuple(values if opening is None else opening)
        self.jammed = False
        self.down: set[int] = set()  # buttons that are held down
        self.opened = 0  # times that it was opened since it was made
        self.plugging = Plugging(self.opening)

    def move(self, axis: int, value: float) -> None:
        """Move an axis; a closed device ignores it."""
        if self.plugging.openings:
            self.plugging.values[axis] = value

    def jam(self) -> None:
        """Make it fail to open, like a device that another program holds."""
        self.jammed = True

    @property
    def listed_name(self) -> str:
        """Name as SDL's list shows it."""
        return shown_name(self.name.encode() if isinstance(self.name, str) else self.name)

    @property
    def openings(self) -> int:
        """Number of times it was opened but not closed since it was plugged in."""
        return self.plugging.openings


class Plugging:
    """One plugging of a device, from plug to unplug."""

    def __init__(self, opening: Sequence[float]) -> None:
        self.openings = 0
        self.opening = opening
        self.values = list(opening)

    def close(self) -> None:
        """Count one opening less; the last one resets the axes."""
        self.openings -= 1
        if self.openings == 0:
            self.end()

    def end(self) -> None:
        """Reset the axes to their opening values, after unplugging or closing."""
        self.values = list(self.opening)


class OpenPad:
    """Joystick object of an open device."""

    def __init__(self, pad: Pad, instance: int) -> None:
        self._pad = pad
        self._instance = instance
        self._plugging: Plugging | None = pad.plugging

    def __del__(self) -> None:
        self.quit()

    def init(self) -> None:
        """Do nothing: it is open from the start."""

    def quit(self) -> None:
        """Close it; every later call fails."""
        if self._plugging is not None:
            self._plugging.close()
            self._plugging = None

    def get_init(self) -> bool:
        """Whether it was not closed; an unplugged one still returns true."""
        return self._plugging is not None

    def get_instance_id(self) -> int:
        """Instance id of this plugging."""
        self._now()
        return self._instance

    def get_guid(self) -> str:
        """The GUID."""
        self._now()
        return self._pad.guid

    def get_name(self) -> str:
        """The name, which must be UTF-8."""
        self._now()
        name = self._pad.name
        return name if isinstance(name, str) else name.decode()

    def get_numaxes(self) -> int:
        """Number of axes."""
        return len(self._now().values)

    def get_numbuttons(self) -> int:
        """Number of buttons."""
        self._now()
        return self._pad.buttons

    def get_axis(self, axis_number: int, /) -> float:
        """Value of an axis."""
        values = self._now().values
        if not 0 <= axis_number < len(values):
            raise pygame.error("Invalid joystick axis")
        return values[axis_number]

    def get_button(self, button: int, /) -> bool:
        """Whether a button is down."""
        self._now()
        if not 0 <= button < self._pad.buttons:
            raise pygame.error("Invalid joystick button")
        return button in self._pad.down

    def _now(self) -> Plugging:
        if self._plugging is None:
            raise pygame.error("Joystick not initialized")
        return self._plugging


class FakeJoysticks:
    """Fake of SdlJoysticks; it lists devices in the order of plugging, or at a given place."""

    def __init__(self, *pads: Pad, denied: Sequence[str] = ()) -> None:
        """`denied` are the names of devices that the user may not read."""
        self.denied_names = denied
        self._list: list[tuple[int, Pad]] = []
        self._opened: weakref.WeakValueDictionary[int, OpenPad] = weakref.WeakValueDictionary()
        self._last_id = -1
        for pad in pads:
            self.plug(pad)

    def plug(self, pad: Pad, place: int | None = None) -> int:
        """Plug a device in, last or at a place of the list; returns its instance id."""
        self._last_id += 1
        pad.plugging = Plugging(pad.opening)
        self._list.insert(len(self._list) if place is None else place, (self._last_id, pad))
        return self._last_id

    def pull(self, pad: Pad) -> None:
        """Unplug a device."""
        pad.plugging.end()
        self._list = [entry for entry in self._list if entry[1] is not pad]

    def replug(self, pad: Pad) -> int:
        """Unplug a device and plug it in again at once; returns its new instance id."""
        self.pull(pad)
        return self.plug(pad)

    def listed(self) -> list[Listed]:
        """Devices plugged in, none of them opened for it."""
        return [Listed(key, short_guid(pad.guid), pad.listed_name) for key, pad in self._list]

    def denied(self) -> Sequence[str]:
        """Names of devices that the user may not read."""
        return self.denied_names

    def open_device(self, index: int, /) -> OpenPad:
        """Open the device at a place; returns the same object while it is open."""
        if not 0 <= index < len(self._list):
            raise pygame.error("Invalid joystick device number")
        instance, pad = self._list[index]
        if pad.jammed:
            raise pygame.error("Unable to open")
        pad.plugging.openings += 1
        pad.opened += 1
        opened = self._opened.get(instance)
        if opened is None or not opened.get_init():
            opened = OpenPad(pad, instance)
            self._opened[instance] = opened
        return opened


def scanned(joysticks: FakeJoysticks) -> Devices:
    """Devices after one rescan."""
    devices = Devices(joysticks)
    devices.rescan()
    return devices
