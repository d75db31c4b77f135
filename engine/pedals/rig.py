"""Rig that a drill is played with: devices, calibrated pedals, and the clock for their samples."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from drills.measures.device import DeviceHistory
from drills.trace import Pedal, Sample
from engine.pedals.bound import Binding, BoundButton
from engine.pedals.finder import Found
from engine.pedals.identity import Axis, Changes, DeviceButton, Missing
from engine.pedals.port import CalibratedPedals, Clock
from engine.pedals.sdl import Devices, SdlPedals
from engine.pedals.shift import ShiftButton

SHIFT_GONE = "Shift button not found: shifts are not measured"
"""Note on every screen while the device of the bound shift button is missing, or one of twins."""
TWO = frozenset({Pedal.BRAKE, Pedal.THROTTLE})
"""Pedals of a rig without a clutch: brake and throttle."""


@dataclass(frozen=True)
class Replugging:
    """Result of a rescan of the devices: what came and went, and whether it hit the pedals."""

    changes: Changes
    """Devices that came and went since the last rescan."""
    cut: bool
    """Whether the pedals in use were unplugged, even if they are plugged in again by now."""


@dataclass(frozen=True)
class Means:
    """Input methods that a player can choose with, besides keys and mouse."""

    feet: bool = False
    """Whether gestures of the feet on the pedals choose."""
    buttons: bool = False
    """Whether there are wheel buttons to choose with."""
    label: str = ""
    """Note about the pedals in use for every screen; empty if their repetitions count."""
    note: str = ""
    """Note on every screen about a device that is missed; empty if there is none."""

    @property
    def above(self) -> str:
        """Line above every screen about the devices in use; empty for none."""
        return self.label or self.note


class Rig:
    """Pedals in use, be they devices, the mouse or simulated, and the devices plugged in."""

    def __init__(
        self, clock: Clock, devices: Devices | None = None, pedals: CalibratedPedals | None = None
    ) -> None:
        """`devices` is None for a rig without devices, such as a simulated one."""
        self.clock = clock
        self._devices = devices
        self._pedals = pedals
        self._trouble: Missing | None = None
        self._seeks_shift = False
        self._pressed: DeviceButton | None = None
        self.device_history = DeviceHistory()
        """What the pedals in use have told of themselves in the repetitions before."""

    @property
    def pedals(self) -> CalibratedPedals | None:
        """Calibrated pedals in use; None until there are any."""
        return self._pedals

    @property
    def devices(self) -> Devices | None:
        """Joystick devices that are plugged in; None for a rig without devices."""
        return self._devices

    @property
    def there(self) -> frozenset[Pedal]:
        """Pedals that there are in use: brake and throttle, with or without a clutch."""
        if self._pedals is None or self._pedals.calibration.clutch is None:
            return TWO
        return TWO | {Pedal.CLUTCH}

    @property
    def shift(self) -> BoundButton | None:
        """Shift button bound beside the pedals in use, plugged in or not; None without one."""
        return None if self._shift is None else self._shift.bound

    @property
    def has_shift(self) -> bool:
        """Whether a shift button is bound beside the pedals in use, and plugged in."""
        return self._shift is not None and self._shift.button is not None

    @property
    def source(self) -> str:
        """Name in the history of what the pedals are read from; empty until there are pedals."""
        return "" if self._pedals is None else self._pedals.source.name

    @property
    def number(self) -> int | None:
        """Number in the history of the rig that is played with; None: not a saved one."""
        return None if self._pedals is None else self._pedals.rig

    @property
    def trouble(self) -> Missing | None:
        """Reason why the pedals in use cannot be read; None while they can."""
        return self._trouble

    @property
    def is_feet(self) -> bool:
        """Whether gestures on the pedals in use choose in menus."""
        return self._pedals is not None and self._pedals.source.is_feet

    @property
    def counts(self) -> bool:
        """Whether repetitions count: only those with feet on pedals do, others are a try-out."""
        return self._pedals is not None and self._pedals.source.counts

    @property
    def means(self) -> Means:
        """Input methods that the player can choose with now, besides keys and mouse."""
        shift = None if self._shift is None else self._shift.button
        devices = None if self._seeks_shift else self._devices
        buttons = devices is not None and devices.choose_beside(shift)
        label = "" if self._pedals is None else self._pedals.source.label
        is_missed = self._shift is not None and shift is None and not self._seeks_shift
        note = SHIFT_GONE if is_missed else ""
        return Means(self.is_feet and self.counts, buttons, label, note)

    @property
    def bound(self) -> Mapping[Pedal, Found]:
        """Axis and range of each bound pedal; empty unless all their devices are plugged in."""
        if self._pedals is None or not isinstance(self._pedals.source, SdlPedals):
            return {}
        scale, axes = self._pedals.calibration, self._pedals.source.axes
        ranges = [ends for ends in (scale.brake, scale.throttle, scale.clutch) if ends is not None]
        bound = {
            pedal: Found(axis, ends) for pedal, axis, ends in zip(Pedal, axes, ranges, strict=False)
        }
        plugged = self.values()
        return bound if all(pedal.axis in plugged for pedal in bound.values()) else {}

    def sample(self) -> Sample | None:
        """Positions of the pedals in use now, in %; None while there are none."""
        return None if self._pedals is None else self._pedals.sample()

    def values(self) -> Mapping[Axis, float]:
        """Raw value of every axis of every open device."""
        return {} if self._devices is None else self._devices.values()

    def seek_shift(self, *, seek: bool) -> None:
        """Begin or end the search for a shift button, during which no button chooses."""
        self._seeks_shift, self._pressed = seek, None

    @property
    def pressed(self) -> BoundButton | None:
        """Button that was pressed last in the search for a shift button; None for none."""
        if self._devices is None or self._pressed is None:
            return None
        identity = self._devices.identity(self._pressed.device)
        return None if identity is None else BoundButton(identity, self._pressed.button)

    def takes(self, button: DeviceButton) -> bool:
        """Take a press of a button if it is a shift; returns whether, as then it chooses nothing.

        The next sample has it. In the search for a shift button every press is taken.
        """
        if self._seeks_shift:
            self._pressed = button
            return True
        if self._shift is None or self._shift.button != button:
            return False
        self._shift.press()
        return True

    def play_with(self, pedals: CalibratedPedals | None) -> None:
        """Use these pedals; None opens every device, so that pedals can be found among them."""
        self._pedals = pedals
        self.device_history = DeviceHistory()
        self.rescan()

    def bind(self, binding: Binding, number: int | None = None) -> Missing | None:
        """Use the devices of a binding as pedals; returns why they cannot be used, or None.

        `number` is that of the saved rig that they belong to, None for pedals that are not saved.
        They are looked for among the devices plugged in now, and opened where they are not open.
        """
        if self._devices is None:
            return Missing.ABSENT
        self._devices.rescan(binding.device_guids)
        pedals = SdlPedals(self._devices, binding, self.clock)
        trouble = pedals.connect()
        if trouble is None:
            self._trouble = None
            self._pedals = CalibratedPedals(pedals, binding.calibration, number)
            self.device_history = DeviceHistory()
        return trouble

    @property
    def _shift(self) -> ShiftButton | None:
        source = None if self._pedals is None else self._pedals.source
        return source.shift if isinstance(source, SdlPedals) else None

    def belongs_to(self, number: int) -> None:
        """Note the number in the history of the rig that the pedals in use belong to."""
        if self._pedals is not None:
            self._pedals = replace(self._pedals, rig=number)

    def rescan(self) -> Replugging:
        """Update the list of devices plugged in, and find the bound ones in it.

        Unless pedals are bound, they may be looked for in every device: all are opened.
        """
        if self._devices is None:
            return Replugging(Changes((), ()), cut=False)
        source = None if self._pedals is None else self._pedals.source
        if not isinstance(source, SdlPedals):
            return Replugging(self._devices.rescan(), cut=False)
        changes = self._devices.rescan(source.guids)
        cut = source.lost(changes)
        self._trouble = source.connect()
        return Replugging(changes, cut)
