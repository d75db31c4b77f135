"""`renew_end`: offers to set an end of a pedal anew where it moved, and saves the new range."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime

from drills.calibration import Calibration
from engine.kit.flow import show
from engine.pedals.moved_ends import End, MovedEnd
from engine.pedals.rig import Rig
from engine.setup.renewal_screens import EndMoved, SetFullAnew, SetRestAnew
from engine.setup.saved_rigs import keep_binding, saved_binding
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History

DECLINED = "ends declined"
"""Key of the setting with the ends that the player declined to set anew: the local day, and by the
key of the end its position in % then."""


def renew_end(
    moved: MovedEnd, rig: Rig, stage: Stage, history: History, now: Callable[[], datetime]
) -> Flow[bool]:
    """Offer to set an end anew, unless the player declined today and it got no worse since.

    Returns whether it was set anew. Raises StoreError.
    """
    binding, today = saved_binding(history), now().date()
    declined = _declined(history, today)
    before = declined.get(moved.key)
    is_asked = before is None or moved.is_worse(before)
    if binding is None or rig.pedals is None or not is_asked:
        return False
    if (yield from show(EndMoved(moved), rig, stage)):
        old = rig.pedals.calibration
        if moved.end is End.REST:
            new = yield from show(SetRestAnew(old, moved), rig, stage)
        else:
            new = yield from show(SetFullAnew(old), rig, stage)
        if isinstance(new, Calibration):
            renewed = binding.with_ends(new)
            if rig.bind(renewed, rig.number) is None:
                keep_binding(history, renewed, now(), is_change=moved.end is End.FULL)
                return True
    declined[moved.key] = moved.percent
    history.keep_setting(DECLINED, {"day": today.isoformat(), **declined})
    return False


def _declined(history: History, today: date) -> dict[str, float]:
    """Ends that the player declined today, each with its position in % then.

    None where the setting cannot be understood. Raises StoreError.
    """
    data = history.setting(DECLINED)
    if not isinstance(data, dict) or data.get("day") != today.isoformat():
        return {}
    ends = {key: value for key, value in data.items() if key != "day"}
    return ends if all(isinstance(value, int | float) for value in ends.values()) else {}
