"""Saved pedal setup in the history, and which devices have buttons, for the rig."""

from __future__ import annotations

from datetime import datetime

from drills.checks import show
from engine.pedals.bound import Binding, BindingError
from engine.pedals.rig import Rig
from engine.practice.changes import set_up_change
from engine.store import History, StoreError
from engine.store.changes import mark_change

BINDING = "binding"
"""Key of the setting for the pedals: the axis of each, and the raw values at its ends."""

BUTTONS = "buttons"
"""Key of the setting that says of every device that was ever opened, by its GUID as in Model,
whether it has buttons: one without is not opened in the game unless pedals are on it."""


def open_saved(rig: Rig, history: History) -> None:
    """Open the saved pedals and the devices with buttons, or every device if there are none.

    Raises StoreError if a saved setting is invalid.
    """
    if rig.devices is not None:
        rig.devices.recall(saved_buttons(history))
    bind_saved(rig, history)
    if rig.pedals is None:
        rig.rescan()


def keep_buttons(rig: Rig, history: History) -> None:
    """Save which devices have buttons, if any were opened that were not known yet."""
    if rig.devices is not None and rig.devices.buttons != saved_buttons(history):
        history.keep_setting(BUTTONS, dict(rig.devices.buttons))


def saved_buttons(history: History) -> dict[str, bool]:
    """Whether devices have buttons, by GUID as in Model, of all that were ever opened.

    Raises StoreError if the saved setting is invalid.
    """
    data = history.setting(BUTTONS) or {}
    if not isinstance(data, dict) or not all(isinstance(value, bool) for value in data.values()):
        raise StoreError(
            f"{history.path}: setting '{BUTTONS}': expected an object of true and false, "
            f"found {show(data)}"
        )
    return data


def bind_saved(rig: Rig, history: History) -> None:
    """Play with the saved pedals instead of the mouse or other stand-in, if they are plugged in."""
    binding = None if rig.is_feet else saved_binding(history)
    if binding is not None:
        rig.bind(binding)


def keep_binding(
    history: History, binding: Binding, at: datetime, *, is_change: bool = True
) -> None:
    """Save the pedals; remember a set-up that replaces another one as a change, made `at` a time.

    A new rest alone is no change (`is_change`). Raises StoreError.
    """
    old = saved_binding(history)
    history.keep_setting(BINDING, binding.as_data())
    if old is None or not is_change:
        return
    same = old.brake.device.model == binding.brake.device.model
    same_axis = same and old.brake.axis == binding.brake.axis
    ends = old.calibration, binding.calibration
    what = set_up_change(*ends, same_axis=same_axis)
    if what is not None:
        mark_change(history, at, what, ends=ends)


def saved_binding(history: History) -> Binding | None:
    """Pedals that were set up and saved; None if there are none.

    Raises StoreError if the saved setting is invalid.
    """
    data = history.setting(BINDING)
    try:
        return None if data is None else Binding.from_data(data)
    except BindingError as error:
        raise StoreError(f"{history.path}: setting '{BINDING}': {error}") from error
