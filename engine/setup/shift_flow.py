"""`ask_shift` and `change_shift`: ask for the shift button beside the pedals, and save it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from engine.kit.flow import show
from engine.pedals.bound import Binding
from engine.pedals.rig import Rig
from engine.pedals.sdl import BUTTONS_LEAST
from engine.setup.saved_rigs import keep_binding, saved_binding
from engine.setup.shift_screen import ShiftMenu
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History


def may_have_shift(binding: Binding, rig: Rig) -> bool:
    """Whether to ask for a shift button: one is bound, or a device has a button that may be it.

    Pedals may have a button or two of their own; a wheel that carries the pedals has more.
    """
    if binding.shift is not None:
        return True
    if rig.devices is None:
        return False
    counts = rig.devices.button_counts
    pedals = {pedal.device for pedal in binding.pedals}
    return any(
        counts.get(device.id, 0) >= (BUTTONS_LEAST if device.identity in pedals else 1)
        for device in rig.devices.plugged
    )


def ask_shift(binding: Binding, rig: Rig, stage: Stage) -> Flow[Binding]:
    """Ask for the shift button beside pedals in use; returns their binding with the answer."""
    rig.seek_shift(seek=True)
    try:
        kept = yield from show(ShiftMenu(lambda: rig.pressed, binding.shift), rig, stage)
    finally:
        rig.seek_shift(seek=False)
    return replace(binding, shift=kept.button)


def change_shift(
    rig: Rig, stage: Stage, history: History, now: Callable[[], datetime]
) -> Flow[None]:
    """Set, change or remove the shift button of the saved pedals in use. Raises StoreError."""
    before = saved_binding(history)
    if before is None:
        return
    binding = yield from ask_shift(before, rig, stage)
    if binding != before and rig.bind(binding, rig.number) is None:
        keep_binding(history, binding, now(), is_change=False)
