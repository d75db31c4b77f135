"""The pedals that were set up, kept in the history, and going over to them."""

from __future__ import annotations

from engine.pedals.bound import Binding, BindingError
from engine.pedals.rig import Rig
from engine.store import History, StoreError

BINDING = "binding"
"""Setting: where the pedals are and what their ends read."""


def bind_saved(rig: Rig, history: History) -> None:
    """Go over to the saved pedals from whatever else is played with, where they are there."""
    binding = None if rig.is_feet else saved_binding(history)
    if binding is not None:
        rig.bind(binding)


def saved_binding(history: History) -> Binding | None:
    """The pedals that were set up before; None where there are none.

    Raises StoreError where what was saved makes no sense.
    """
    data = history.setting(BINDING)
    try:
        return None if data is None else Binding.from_data(data)
    except BindingError as error:
        raise StoreError(f"{history.path}: setting '{BINDING}': {error}") from error
