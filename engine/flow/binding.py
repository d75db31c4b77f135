"""Setting up the pedals: finding each by its movement, and reading back what was saved."""

from __future__ import annotations

from dataclasses import dataclass

from drills.trace import Pedal
from engine.flow import show
from engine.pedals.bound import Binding, BindingError, BoundAxis
from engine.pedals.identity import Missing
from engine.pedals.mouse import MOUSE_TRAVEL, MousePedals
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.screens.finding import NOTES, FeetOff, FindPedal, Found, Gone, PedalsFound, heading
from engine.screens.nopedals import Instead, NoPedals, NothingPlugged
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History, StoreError

BINDING = "binding"
"""Setting: where the pedals are and what their ends read."""


@dataclass(frozen=True)
class _AllFound:
    """Every pedal there is, found."""

    binding: Binding
    """To be saved."""
    lines: dict[Pedal, str]
    """Where each was found, for the player."""


def find_pedals(rig: Rig, stage: Stage, history: History) -> Flow[Instead | None]:
    """Find something to play with; None where the rig has it, otherwise what is wanted instead."""
    binding = saved_binding(history)
    while True:
        trouble: Missing | None = Missing.AMBIGUOUS
        if binding is not None:
            trouble = rig.bind(binding)
            if trouble is None:
                return None
        plugged = 0 if rig.devices is None else len(rig.devices.plugged)
        if plugged and trouble is Missing.AMBIGUOUS and (yield from set_up(rig, stage, history)):
            return None
        screen = NoPedals(saved=binding is not None, plugged=plugged)
        match (yield from show(screen, rig, stage)):
            case Instead.MOUSE:
                mouse = MousePedals(stage.lights.pointer, rig.clock)
                rig.play_with(CalibratedPedals(mouse, MOUSE_TRAVEL))
                return None
            case Instead.BIND:
                if (yield from set_up(rig, stage, history)):
                    return None
            case Instead.PLUGGED:
                continue
            case other:
                return other


def bind_saved(rig: Rig, history: History) -> None:
    """Go over to the saved pedals from whatever else is played with, where they are there."""
    binding = None if rig.is_feet else saved_binding(history)
    if binding is not None:
        rig.bind(binding)


def set_up(rig: Rig, stage: Stage, history: History) -> Flow[bool]:
    """Bind and calibrate the pedals; whether that was gone through with."""
    before, note = rig.pedals, ""
    while True:
        rig.play_with(None)
        if not rig.values():
            if not (yield from show(NothingPlugged(), rig, stage)):
                break
            continue
        found = yield from _find_all(rig, stage, note)
        note = ""
        if isinstance(found, Gone):
            if found is Gone.BACK:
                break
            note = NOTES[found]
        elif rig.bind(found.binding) is None and (
            yield from show(PedalsFound(found.lines), rig, stage)
        ):
            history.keep_setting(BINDING, found.binding.as_data())
            return True
    rig.play_with(before)
    return False


def saved_binding(history: History) -> Binding | None:
    """The pedals that were set up before; None where there are none.

    Raises StoreError where what was saved makes no sense.
    """
    data = history.setting(BINDING)
    try:
        return None if data is None else Binding.from_data(data)
    except BindingError as error:
        raise StoreError(f"{history.path}: setting '{BINDING}': {error}") from error


def _find_all(rig: Rig, stage: Stage, note: str) -> Flow[_AllFound | Gone]:
    found: dict[Pedal, Found] = {}
    for pedal in Pedal:
        rested = yield from show(FeetOff(rig.values, found, heading(pedal), note), rig, stage)
        if isinstance(rested, Gone):
            return rested
        optional = pedal is Pedal.CLUTCH
        outcome = yield from show(
            FindPedal(pedal, rig.values, found, optional=optional), rig, stage
        )
        if isinstance(outcome, Found):
            found[pedal] = outcome
        elif outcome is not Gone.SKIPPED:
            return outcome
    rested = yield from show(FeetOff(rig.values, found, "The pedals are set up"), rig, stage)
    if isinstance(rested, Gone):
        return rested
    return _identified(rig, found) or Gone.LOST


def _identified(rig: Rig, found: dict[Pedal, Found]) -> _AllFound | None:
    """The pedals with the devices they are on; None where one of those is not there any more."""
    axes = {}
    for pedal, one in found.items():
        identity = None if rig.devices is None else rig.devices.identity(one.axis.device)
        if identity is None:
            return None
        axes[pedal] = BoundAxis(identity, one.axis.axis, one.range)
    binding = Binding(axes[Pedal.BRAKE], axes[Pedal.THROTTLE], axes.get(Pedal.CLUTCH))
    lines = {
        pedal: f"axis {bound.axis + 1} of {bound.device.name}" for pedal, bound in axes.items()
    }
    return _AllFound(binding, lines)
