"""Reads and writes the fault that the player works on, as a setting of the history.

Each rig has a fault of its own, as its blips are compared with no other's. It is found where a
session or a set begins or ends, so that nothing else has to read the blips. A setting that is not
as it is written here is none: the next look at the blips tells the fault again.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from drills.fault import Fault
from engine.practice.diagnosis import NEWEST, FaultShare
from engine.practice.focus import Focus, FocusChange, FocusStep, Halved, focus_step
from engine.store import History
from engine.store.changes import scale_start
from engine.store.faults import newest_faults
from engine.store.remeasure import remeasuring
from engine.store.repetitions import newest_number
from engine.store.rigs import USED

KEY = "focus"
"""Key of the setting with the last step; a rig with a number has it under "focus 2" and so on."""


def focus_now(history: History) -> Focus | None:
    """The fault that the player works on with the rig in use, as it was last looked at.

    None while the history is remeasured, and on another scale of the brake. Raises StoreError.
    """
    return newest_step(history).now


def newest_step(history: History) -> FocusStep:
    """The last change of the fault that the player works on: told, halved or taken over.

    Its `now` is what is worked on still. Raises StoreError.
    """
    nothing = FocusStep(FocusChange.NONE, None)
    if remeasuring(history) is not None:
        return nothing
    found = _step(history.setting(_key(history)))
    if found is None:
        return nothing
    step, after = found
    return nothing if after <= scale_start(history) else step


def refresh_focus(history: History, day: date) -> Focus | None:
    """Look at the newest blips on a local day, and store the fault worked on from then on.

    Returns it; None for none, and while the history is remeasured. Raises StoreError.
    """
    return refresh_step(history, day).now


def refresh_step(history: History, day: date) -> FocusStep:
    """The same as a step, which says what this look changed: its turn is NONE for nothing.

    Raises StoreError.
    """
    if remeasuring(history) is not None:
        return FocusStep(FocusChange.NONE, None)
    before = newest_step(history)
    faults = [fault for _, fault in newest_faults(history)]
    step = focus_step(before.now, faults, day, before.halved)
    if step.change is not FocusChange.NONE:
        _keep(history, step)
    elif step.now != before.now:
        _keep(history, replace(before, now=step.now))
    return step


def _keep(history: History, step: FocusStep) -> None:
    history.keep_setting(_key(history), _data(step, newest_number(history)))


def _key(history: History) -> str:
    rig = history.setting(USED)
    return KEY if rig is None else f"{KEY} {rig}"


def _data(step: FocusStep, after: int) -> dict[str, Any]:
    """A step as plain data; `after` is the number of the newest repetition that it has seen."""
    return {
        "turn": step.change.value,
        "after": after,
        "now": _focus_data(step.now),
        "over": _focus_data(step.over),
        "halved": _halved_data(step.halved),
    }


def _halved_data(halved: Halved | None) -> list[str] | None:
    return None if halved is None else [halved.fault.value, halved.on.isoformat()]


def _focus_data(focus: Focus | None) -> dict[str, Any] | None:
    if focus is None:
        return None
    return {
        "fault": focus.fault.value,
        "was": [focus.was.times, focus.was.of],
        "now": [focus.now.times, focus.now.of],
        "since": focus.since.isoformat(),
    }


def _step(data: Any) -> tuple[FocusStep, int] | None:
    """Step of plain data, and the newest repetition that it has seen; None for anything else."""
    try:
        now, over = _focus(data["now"]), _focus(data["over"])
        step = FocusStep(FocusChange(data["turn"]), now, over, _halved(data["halved"]))
        after = data["after"]
    except (KeyError, TypeError, ValueError):
        return None
    return (step, after) if type(after) is int else None


def _focus(data: Any) -> Focus | None:
    """Fault worked on of plain data. Raises KeyError, TypeError, ValueError for anything else."""
    if data is None:
        return None
    fault, since = Fault(data["fault"]), date.fromisoformat(data["since"])
    return Focus(_share(fault, data["was"]), _share(fault, data["now"]), since)


def _halved(data: Any) -> Halved | None:
    """Fault that halved of plain data. Raises TypeError, ValueError for anything else."""
    if data is None:
        return None
    fault, on = data
    return Halved(Fault(fault), date.fromisoformat(on))


def _share(fault: Fault, data: Any) -> FaultShare:
    times, of = data
    if type(times) is not int or type(of) is not int or not 0 <= times <= of <= NEWEST or not of:
        raise ValueError(f"expected a count of at most {NEWEST} blips, found {data!r}")
    return FaultShare(fault, times, of)
