"""A joystick module as pygame.joystick is one, with devices that are plugged in and out by hand.

Tried on both builds, and so it is here: a device opened twice is one object; it is closed when
that object is collected, or by one quit for each opening; closed ones raise pygame.error; one
that was pulled out goes on answering, each axis with its opening value.
"""

from __future__ import annotations

import weakref
from collections.abc import Sequence

import pygame

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
        self.plugging = Plugging(self.opening)

    def move(self, axis: int, value: float) -> None:
        """Move an axis; a closed device is not listened to."""
        if self.plugging.openings:
            self.plugging.values[axis] = value

    def jam(self) -> None:
        """From now on it cannot be opened, as one that another program holds."""
        self.jammed = True

    @property
    def openings(self) -> int:
        """How often it was opened and not closed since it was plugged in."""
        return self.plugging.openings


class Plugging:
    """A device from being put in to being pulled out."""

    def __init__(self, opening: Sequence[float]) -> None:
        self.openings = 0
        self.opening = opening
        self.values = list(opening)

    def close(self) -> None:
        """Count one opening less; the last one forgets where the axes are."""
        self.openings -= 1
        if self.openings == 0:
            self.end()

    def end(self) -> None:
        """Pulled out or closed, the axes are back where they opened."""
        self.values = list(self.opening)


class OpenPad:
    """What opening a device gives."""

    def __init__(self, pad: Pad, instance: int) -> None:
        self._pad = pad
        self._instance = instance
        self._plugging: Plugging | None = pad.plugging

    def __del__(self) -> None:
        self.quit()

    def init(self) -> None:
        """Nothing: it was opened when it was made."""

    def quit(self) -> None:
        """Close it; after that nothing can be asked of it."""
        if self._plugging is not None:
            self._plugging.close()
            self._plugging = None

    def get_init(self) -> bool:
        """Whether it was not closed; one that was pulled out still says yes."""
        return self._plugging is not None

    def get_instance_id(self) -> int:
        """The number of this plugging."""
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
        """The count of axes."""
        return len(self._now().values)

    def get_numbuttons(self) -> int:
        """The count of buttons."""
        self._now()
        return self._pad.buttons

    def get_axis(self, axis_number: int, /) -> float:
        """What an axis reads."""
        values = self._now().values
        if not 0 <= axis_number < len(values):
            raise pygame.error("Invalid joystick axis")
        return values[axis_number]

    def _now(self) -> Plugging:
        if self._plugging is None:
            raise pygame.error("Joystick not initialized")
        return self._plugging


class FakeJoysticks:
    """The module. Devices are listed as they were plugged, one put in at a place moves others."""

    def __init__(self, *pads: Pad) -> None:
        self._list: list[tuple[int, Pad]] = []
        self._opened: weakref.WeakValueDictionary[int, OpenPad] = weakref.WeakValueDictionary()
        self._last_id = -1
        for pad in pads:
            self.plug(pad)

    def plug(self, pad: Pad, place: int | None = None) -> int:
        """Put a device in, last or at a place of the list; its instance id."""
        self._last_id += 1
        pad.plugging = Plugging(pad.opening)
        self._list.insert(len(self._list) if place is None else place, (self._last_id, pad))
        return self._last_id

    def pull(self, pad: Pad) -> None:
        """Pull a device out."""
        pad.plugging.end()
        self._list = [entry for entry in self._list if entry[1] is not pad]

    def replug(self, pad: Pad) -> int:
        """Pull a device out and put it in again at once; its new instance id."""
        self.pull(pad)
        return self.plug(pad)

    def get_count(self) -> int:
        """The count of devices plugged in."""
        return len(self._list)

    def Joystick(self, index: int, /) -> OpenPad:  # noqa: N802 (pygame's name)
        """Open the device at a place; the same object, while one of it is open."""
        if not 0 <= index < len(self._list):
            raise pygame.error("Invalid joystick device number")
        instance, pad = self._list[index]
        if pad.jammed:
            raise pygame.error("Unable to open")
        pad.plugging.openings += 1
        opened = self._opened.get(instance)
        if opened is None or not opened.get_init():
            opened = OpenPad(pad, instance)
            self._opened[instance] = opened
        return opened


def scanned(joysticks: FakeJoysticks) -> Devices:
    """Devices that have looked once."""
    devices = Devices(joysticks)
    devices.rescan()
    return devices
