"""Binding of the saved pedals at the start, and which devices have buttons, for the rig."""

from __future__ import annotations

from engine.pedals.rig import Rig
from engine.setup.rigs import NamedRig, fitting
from engine.setup.saved_rigs import saved_rigs, use_rig
from engine.store import History

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

    Without a setting that can be understood there are none: they are opened once more. Raises
    StoreError.
    """
    data = history.setting(BUTTONS)
    if not isinstance(data, dict) or not all(isinstance(value, bool) for value in data.values()):
        return {}
    return data


def bind_saved(rig: Rig, history: History) -> bool:
    """Play with the pedals of a saved rig that is plugged in, in place of the mouse or of a rig
    that is not; returns whether another rig is played with now.

    Of several it is the one that was played with last, else the first.
    """
    if rig.is_feet and rig.trouble is None:
        return False
    return any(bind_rig(rig, history, saved) for saved in fitting(saved_rigs(history), rig))


def bind_rig(rig: Rig, history: History, saved: NamedRig) -> bool:
    """Play with the pedals of a saved rig; returns whether they can be used."""
    if rig.bind(saved.binding, saved.number) is not None:
        return False
    use_rig(history, saved.number)
    return True
