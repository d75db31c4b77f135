"""Saved pedal setup in the history: reads it, and binds its pedals to the rig."""

from __future__ import annotations

from engine.pedals.bound import Binding, BindingError
from engine.pedals.rig import Rig
from engine.store import History, StoreError

BINDING = "binding"
"""Key of the setting for the pedals: the axis of each, and the raw values at its ends."""


def bind_saved(rig: Rig, history: History) -> None:
    """Play with the saved pedals instead of the mouse or other stand-in, if they are plugged in."""
    binding = None if rig.is_feet else saved_binding(history)
    if binding is not None:
        rig.bind(binding)


def saved_binding(history: History) -> Binding | None:
    """Pedals that were set up and saved; None if there are none.

    Raises StoreError if the saved setting is invalid.
    """
    data = history.setting(BINDING)
    try:
        return None if data is None else Binding.from_data(data)
    except BindingError as error:
        raise StoreError(f"{history.path}: setting '{BINDING}': {error}") from error
