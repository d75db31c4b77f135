"""What a drill is played with: devices, calibrated pedals, and the clock they are read by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from drills.trace import Pedal, Sample
from engine.pedals.bound import Binding
from engine.pedals.finder import Found
from engine.pedals.identity import Axis, Changes, Missing
from engine.pedals.port import CalibratedPedals, Clock
from engine.pedals.sdl import Devices, SdlPedals

TWO = frozenset({Pedal.BRAKE, Pedal.THROTTLE})
"""The pedals that are always there; a clutch may be missing."""


@dataclass(frozen=True)
class Replugging:
    """What a look at the devices found."""

    changes: Changes
    """Devices that came and went since the last look."""
    cut: bool
    """Whether the pedals that are played with were among those that went, back by now or not."""


@dataclass(frozen=True)
class Means:
    """What a player has at hand to choose with, beside keys and mouse."""

    feet: bool = False
    """Whether feet on pedals are heard."""
    buttons: bool = False
    """Whether there are wheel buttons."""
    label: str = ""
    """What every screen says of what is played with; empty where it counts."""


class Rig:
    """Pedals from whatever source, with devices where there may be any."""

    def __init__(
        self, clock: Clock, devices: Devices | None = None, pedals: CalibratedPedals | None = None
    ) -> None:
        """`devices` None is a rig that nothing can be plugged into, such as a simulated one."""
        self.clock = clock
        self._devices = devices
        self._pedals = pedals
        self._trouble: Missing | None = None

    @property
    def pedals(self) -> CalibratedPedals | None:
        """What is played with; None until it is known."""
        return self._pedals

    @property
    def devices(self) -> Devices | None:
        """What is plugged in."""
        return self._devices

    @property
    def there(self) -> frozenset[Pedal]:
        """The pedals there are to play with."""
        if self._pedals is None or self._pedals.calibration.clutch is None:
            return TWO
        return TWO | {Pedal.CLUTCH}

    @property
    def source(self) -> str:
        """What the history calls what is played with; empty while that is not known."""
        return "" if self._pedals is None else self._pedals.source.name

    @property
    def trouble(self) -> Missing | None:
        """Why the pedals that are played with are not read; None while they are."""
        return self._trouble

    @property
    def is_feet(self) -> bool:
        """Whether pedals that choose in menus are bound."""
        return self._pedals is not None and self._pedals.source.is_feet

    @property
    def counts(self) -> bool:
        """Whether what is played with it counts: feet on pedals do, all else is a try-out."""
        return self._pedals is not None and self._pedals.source.counts

    @property
    def means(self) -> Means:
        """What there is to choose with."""
        buttons = self._devices is not None and self._devices.has_buttons
        label = "" if self._pedals is None else self._pedals.source.label
        return Means(self.is_feet and self.counts, buttons, label)

    @property
    def bound(self) -> Mapping[Pedal, Found]:
        """Where the devices' pedals that are played with are; empty unless all are there."""
        if self._pedals is None or not isinstance(self._pedals.source, SdlPedals):
            return {}
        scale, axes = self._pedals.calibration, self._pedals.source.axes
        ranges = [one for one in (scale.brake, scale.throttle, scale.clutch) if one is not None]
        found = {
            pedal: Found(axis, ends) for pedal, axis, ends in zip(Pedal, axes, ranges, strict=False)
        }
        there = self.values()
        return found if all(one.axis in there for one in found.values()) else {}

    def sample(self) -> Sample | None:
        """The pedals now; None while there are none."""
        return None if self._pedals is None else self._pedals.sample()

    def values(self) -> Mapping[Axis, float]:
        """What every axis of every open device reads."""
        return {} if self._devices is None else self._devices.values()

    def play_with(self, pedals: CalibratedPedals | None) -> None:
        """Play with these from now on; None opens every device, to look for pedals among them."""
        self._pedals = pedals
        self.rescan()

    def bind(self, binding: Binding) -> Missing | None:
        """Play with the bound devices; what stands in the way, if anything."""
        if self._devices is None:
            return Missing.ABSENT
        pedals = SdlPedals(self._devices, binding, self.clock)
        trouble = pedals.connect()
        if trouble is None:
            self._trouble = None
            self._pedals = CalibratedPedals(pedals, binding.calibration)
        return trouble

    def rescan(self) -> Replugging:
        """Look at the devices anew, and the bound ones up again among them."""
        if self._devices is None:
            return Replugging(Changes((), ()), cut=False)
        changes = self._devices.rescan()
        source = None if self._pedals is None else self._pedals.source
        if not isinstance(source, SdlPedals):
            return Replugging(changes, cut=False)
        cut = source.lost(changes)
        self._trouble = source.connect()
        return Replugging(changes, cut)
