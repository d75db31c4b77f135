"""Rigs in the history: reading them, keeping the pedals of one, naming and removing."""

from __future__ import annotations

import json
import sqlite3
from datetime import datetime

from engine.pedals.bound import Binding, BindingError
from engine.practice.changes import set_up_change
from engine.setup.rigs import NamedRig
from engine.store import History
from engine.store.cells import Row
from engine.store.changes import insert_change
from engine.store.rigs import USED


def saved_rigs(history: History) -> list[NamedRig]:
    """Rigs that were set up and not removed, the one played with last first.

    One whose pedals cannot be understood is left out: it can be set up anew. Raises StoreError.
    """
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
            except BindingError:
                continue
            rigs.append(NamedRig(number, row.text("name", name), row.text("note", note), bound))
        return rigs


def saved_binding(history: History) -> Binding | None:
    """Pedals of the rig that was played with last; None if none were set up. Raises StoreError."""
    rigs = saved_rigs(history)
    return rigs[0].binding if rigs else None


def add_rig(history: History, binding: Binding, name: str = "") -> int:
    """Store a new rig, which is played with from now on; returns its number. Raises StoreError."""
    cursor = history.write(
        lambda db: db.execute(
            "INSERT INTO rig (name, note, binding, removed) VALUES (?, '', ?, 0)",
            (name.strip(), json.dumps(binding.as_data())),
        ),
        "your pedals",
    )
    number = int(cursor.lastrowid or 0)
    use_rig(history, number)
    return number


def keep_binding(
    history: History, binding: Binding, at: datetime, *, is_change: bool = True
) -> int:
    """Store the pedals of the rig that was played with last, or of a first one.

    It is played with from now on. A set-up that replaces another one is remembered as a change,
    made `at` a time; a new rest alone is none (`is_change`). Returns the number of the rig. Raises
    StoreError.
    """
    rigs = saved_rigs(history)
    if not rigs:
        return add_rig(history, binding)
    number, old = rigs[0].number, rigs[0].binding
    same = old.brake.device.model == binding.brake.device.model
    same_axis = same and old.brake.axis == binding.brake.axis
    ends = old.calibration, binding.calibration
    what = set_up_change(*ends, same_axis=same_axis) if is_change else None

    def change(db: sqlite3.Connection) -> None:
        data = json.dumps(binding.as_data())
        db.execute("UPDATE rig SET binding = ? WHERE id = ?", (data, number))
        if what is not None:
            insert_change(db, at, what, ends=ends, rig=number)

    history.write(change, "your pedals")
    # The one that was played with last may have been removed since.
    use_rig(history, number)
    return number


def use_rig(history: History, number: int) -> None:
    """Store that a rig is played with, if that is not known yet. Raises StoreError."""
    if history.setting(USED) != number:
        history.keep_setting(USED, number)


def name_rig(history: History, number: int, name: str) -> None:
    """Store the name of a rig. Raises StoreError."""
    cells = name.strip(), number
    history.write(lambda db: db.execute("UPDATE rig SET name = ? WHERE id = ?", cells))


def note_rig(history: History, number: int, note: str) -> None:
    """Store the player's note on a rig. Raises StoreError."""
    cells = note.strip(), number
    history.write(lambda db: db.execute("UPDATE rig SET note = ? WHERE id = ?", cells))


def remove_rig(history: History, number: int) -> None:
    """Remove a rig from those that are offered; its repetitions stay. Raises StoreError."""
    history.write(lambda db: db.execute("UPDATE rig SET removed = 1 WHERE id = ?", (number,)))
