"""Rigs in the history: reading them, keeping the pedals of one, naming and removing."""

from __future__ import annotations

import json

from engine.pedals.bound import Binding, BindingError
from engine.setup.rigs import NamedRig
from engine.store import History, StoreError
from engine.store.cells import Row

USED = "rig"
"""Key of the setting for the number of the rig that was played with last."""


def saved_rigs(history: History) -> list[NamedRig]:
    """Rigs that were set up and not removed, the one played with last first. Raises StoreError."""
    with history.reading() as db:
        found = db.execute(
            "SELECT id, name, note, binding FROM rig WHERE removed = 0"
            " ORDER BY id IS NOT (SELECT value FROM setting WHERE key = ?), id",
            (USED,),
        ).fetchall()
        rigs = []
        for number, name, note, binding in found:
            row = Row(f"rig {number}")
            data = row.json("binding", binding)
            try:
                bound = Binding.from_data(data)
            except BindingError as error:
                raise StoreError(f"{history.path}: rig {number}: {error}") from error
            rigs.append(NamedRig(number, row.text("name", name), row.text("note", note), bound))
        return rigs


def saved_binding(history: History) -> Binding | None:
    """Pedals of the rig that was played with last; None if none were set up. Raises StoreError."""
    rigs = saved_rigs(history)
    return rigs[0].binding if rigs else None


def add_rig(history: History, binding: Binding, name: str = "") -> int:
    """Store a new rig, which is played with from now on; returns its number. Raises StoreError."""
    with history.transaction() as db:
        cursor = db.execute(
            "INSERT INTO rig (name, note, binding, removed) VALUES (?, '', ?, 0)",
            (name.strip(), json.dumps(binding.as_data())),
        )
    number = int(cursor.lastrowid or 0)
    use_rig(history, number)
    return number


def keep_binding(history: History, binding: Binding, number: int | None = None) -> int:
    """Store the pedals of a rig; returns its number. Raises StoreError.

    `number` is that of the rig; None: the one that was played with last, or a first one.
    """
    if number is None:
        rigs = saved_rigs(history)
        if not rigs:
            return add_rig(history, binding)
        number = rigs[0].number
    with history.transaction() as db:
        data = json.dumps(binding.as_data())
        db.execute("UPDATE rig SET binding = ? WHERE id = ?", (data, number))
    return number


def use_rig(history: History, number: int) -> None:
    """Store that a rig is played with, if that is not known yet. Raises StoreError."""
    if history.setting(USED) != number:
        history.keep_setting(USED, number)


def name_rig(history: History, number: int, name: str) -> None:
    """Store the name of a rig. Raises StoreError."""
    with history.transaction() as db:
        db.execute("UPDATE rig SET name = ? WHERE id = ?", (name.strip(), number))


def note_rig(history: History, number: int, note: str) -> None:
    """Store the player's note on a rig. Raises StoreError."""
    with history.transaction() as db:
        db.execute("UPDATE rig SET note = ? WHERE id = ?", (note.strip(), number))


def remove_rig(history: History, number: int) -> None:
    """Remove a rig from those that are offered; its repetitions stay. Raises StoreError."""
    with history.transaction() as db:
        db.execute("UPDATE rig SET removed = 1 WHERE id = ?", (number,))
