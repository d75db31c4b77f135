"""Shifts by a hand on a button, at the blip of a clutch and of a run, and what is said of each."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from drills.score import Reason
from tests.drills.kinds import clutch_cases
from tests.drills.kinds.clutch_cases import CLUTCH, HELD
from tests.drills.kinds.made import SECONDS, TIME, Made, bump, lines, made, presses, square
from tests.drills.kinds.run_case import FIRST, RUN, SECOND, THIRD
from tests.drills.shapes import Values

LIMIT = 0.15
"""Largest clean time of a shift from its blip's peak, in s."""
ONSET, PULSE, UP = 0.45, 0.2, 0.8
"""Onset and width of the blip under the clutch, and when the clutch comes up, in s from the cue."""


def under_clutch(
    *at: float, brake: Values = HELD, limited: bool = True, up: float = UP, bound: bool = True
) -> Made:
    """A blip under the clutch, with presses of the button some s after the blip's peak.

    The blip is square: its peak is its onset.
    """
    limits = {**clutch_cases.USUAL, **({"shift_at": LIMIT} if limited else {})}
    button = presses(*(ONSET + one for one in at)) if bound else None
    clutch = square(0.3, min(up, SECONDS) - 0.3, 100.0)
    level = replace(CLUTCH, limits=limits)
    return made(level, brake, square(ONSET, PULSE), clutch, button=button)


def in_a_run(at: Sequence[float], brake: Values = HELD, limited: bool = True) -> Made:
    """A run of three square blips, with presses some s after the peak of each in turn."""
    throttle = np.zeros(TIME.size)
    for onset in (FIRST, SECOND, THIRD):
        throttle = np.maximum(throttle, square(onset))
    button = presses(*(onset + one for onset, one in zip((FIRST, SECOND, THIRD), at, strict=False)))
    limits = {**RUN.limits, **({"shift_at": LIMIT} if limited else {})}
    return made(replace(RUN, limits=limits), brake, throttle, button=button)


@dataclass(frozen=True)
class Case:
    """One repetition with a shift button, with its sentence, its verdict and its quiet line."""

    name: str
    said: str
    made: Made
    reason: Reason = Reason.OVER_LIMIT
    lean: float | None = None
    note: str = ""


DIPPED = HELD + bump(-22, ONSET)
ASKED = (
    Case(
        "a shift on the peak",
        "The brake hardly dipped. The same again.",
        under_clutch(0.0),
        Reason.CLEAN,
        0.0,
        "Shift at the blip's peak.",
    ),
    Case(
        "a shift well after the peak where none is limited",
        "The brake hardly dipped. The same again.",
        under_clutch(0.25, limited=False),
        Reason.CLEAN,
        0.0,
        "Shift 0.25 s after the blip's peak.",
    ),
    Case(
        "a shift just before the peak",
        "The brake hardly dipped. The same again.",
        under_clutch(-0.012),
        Reason.CLEAN,
        0.0,
        "Shift 0.01 s before the blip's peak.",
    ),
    Case(
        "a shift nearly too late",
        "The shift came with the blip. Keep hand and foot as close.",
        under_clutch(0.145),
        Reason.CLEAN,
        0.0,
    ),
    Case("a late shift", "The shift was late. Shift as the throttle peaks.", under_clutch(0.2)),
    Case(
        "a late shift, and a deeper fault of the brake",
        "The brake fell during the blip. Feel the same pressure all through.",
        under_clutch(0.16, brake=DIPPED),
        lean=-1.0,
        note="Shift 0.16 s after the blip's peak.",
    ),
    Case("no shift", "No shift came. One shift with each blip.", under_clutch()),
    Case(
        "no shift where none is limited",
        "The brake hardly dipped. The same again.",
        under_clutch(limited=False),
        Reason.CLEAN,
        0.0,
    ),
    Case(
        "a limit without a button",
        "The brake hardly dipped. The same again.",
        under_clutch(bound=False),
        Reason.CLEAN,
        0.0,
    ),
    Case(
        "a shift before the blip",
        "The shift came before the blip. Blip first, then shift.",
        under_clutch(-0.08, limited=False),
        Reason.SHIFT_FIRST,
        0.0,
    ),
    Case(
        "a shift before the blip, and a dip",
        "The shift came before the blip. Blip first, then shift.",
        under_clutch(-0.08, brake=DIPPED),
        Reason.SHIFT_FIRST,
    ),
    Case(
        "a shift after the clutch is up",
        "The shift was late: the clutch was up. Shift, then let the clutch up.",
        under_clutch(0.45, limited=False),
        Reason.SHIFT_LAST,
        0.0,
    ),
    Case(
        "a run with each shift near its blip",
        "The brake hardly dipped. The same again.",
        in_a_run((0.02, -0.05, 0.03)),
        Reason.CLEAN,
        0.0,
        "Farthest shift 0.05 s before its blip's peak.",
    ),
    Case(
        "a run with its second shift late",
        "The second shift was late. Shift as the throttle peaks.",
        in_a_run((0.02, 0.21, -0.16)),
    ),
    Case(
        "a run with its third shift too soon",
        "The third shift came too soon. Shift as the throttle peaks.",
        in_a_run((0.02, 0.1, -0.22)),
    ),
    Case(
        "a run with a shift too few",
        "One blip had no shift. One shift with each blip.",
        in_a_run((0.02, 0.1)),
    ),
    Case(
        "a run with one shift of three",
        "Two blips had no shift. One shift with each blip.",
        in_a_run((0.02,)),
    ),
    Case(
        "a run with a shift too few, and no limit on it",
        "The brake hardly dipped. The same again.",
        in_a_run((0.02, 0.1), limited=False),
        Reason.CLEAN,
        0.0,
        "One blip had no shift.",
    ),
    Case("a run without a shift", "No shift came. One shift with each blip.", in_a_run(())),
    Case(
        "a run grown heavy in the dark",
        "In the dark the brake grew too heavy. Keep the weight you had in the light.",
        in_a_run((0.02, 0.03, 0.04), brake=lines((0, 66.0))),
        Reason.OFF_TARGET,
        1.0,
        "Farthest shift 0.04 s after its blip's peak.",
    ),
)
