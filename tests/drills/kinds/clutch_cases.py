"""Shifts as a person might do them, and the sentence that is said of each."""

from dataclasses import dataclass, field, replace
from typing import Any

from drills.kinds import KINDS
from drills.level import Level
from drills.score import Reason
from tests.drills.kinds.made import SECONDS, Made, bump, lines, made, square
from tests.drills.shapes import Values
from tests.made import BLIP

USUAL = {"dip": 15.0, "surge": 15.0, "clutch_up": 1.5}
CLUTCH = replace(BLIP, id="a-shift", kind=KINDS["clutch"], limits=USUAL)
HELD = lines((0, 60.0))


def shift(
    down: float = 0.30,
    onset: float = 0.45,
    length: float = 0.2,
    up: float | None = 0.80,
    brake: Values = HELD,
    asked: Level = CLUTCH,
    peak: float = 70.0,
    depth: float = 100.0,
) -> Made:
    """A shift by its times in s from the cue; the clutch goes down at once, and up."""
    pressed = square(down, SECONDS if up is None else up - down, depth)
    return made(asked, brake, square(onset, length, peak), pressed)


@dataclass(frozen=True)
class Case:
    """One shift at 60 %, with its sentence, its verdict and its bubble."""

    name: str
    said: str
    times: dict[str, Any] = field(default_factory=dict)
    brake: Values = field(default_factory=lambda: HELD)
    lean: float | None = 0.0
    reason: Reason = Reason.OVER_LIMIT
    limits: dict[str, float] = field(default_factory=lambda: dict(USUAL))
    blip: dict[str, float] = field(default_factory=dict)

    @property
    def made(self) -> Made:
        """The repetition."""
        asked = replace(CLUTCH, limits=self.limits, own={**CLUTCH.own, **self.blip})
        return shift(brake=self.brake, asked=asked, **self.times)


CASES = (
    Case(
        "in order and still",
        "The brake hardly dipped. The same again.",
        reason=Reason.CLEAN,
    ),
    Case(
        "with a small dip",
        "Some brake went with the throttle, not too much. Stay as heavy all through the next.",
        brake=HELD + bump(-8, 0.45),
        reason=Reason.CLEAN,
    ),
    Case(
        "a dip",
        "The brake fell during the blip. Feel the same pressure all through.",
        brake=HELD + bump(-22, 0.45),
        lean=-1.0,
    ),
    Case(
        "a foot that comes off",
        "The brake came off altogether during the blip. Never let the pedal come all the way up.",
        brake=HELD + bump(-60, 0.45),
        lean=-1.0,
    ),
    Case(
        "a push",
        "The brake rose with the blip. Let the throttle go in without pressing harder.",
        brake=HELD + bump(20, 0.45),
        lean=1.0,
    ),
    Case(
        "a clutch that stays down after the blip",
        "The clutch stayed down after the blip. Let it up as the throttle closes.",
        {"up": 1.6},
        lean=None,
    ),
    Case(
        "a clutch that is slow to go down",
        "The clutch was up late, as it went down late. Let the cue send the clutch down.",
        {"down": 0.75, "onset": 0.9, "up": 1.25},
        lean=None,
        limits=USUAL | {"clutch_up": 1.1},
    ),
    Case(
        "a blip that is slow to follow the clutch",
        "The clutch was up late, as the blip was slow. Clutch down and blip: one move.",
        {"onset": 0.9, "up": 1.25},
        lean=None,
        limits=USUAL | {"clutch_up": 1.1},
    ),
    Case(
        "a throttle that stays on",
        "The clutch was up late, as the throttle stayed on. Make it short: in and out.",
        {"length": 0.55, "up": 1.15},
        lean=None,
        limits=USUAL | {"clutch_up": 1.1},
    ),
    Case(
        "a clutch slow to go down where that is limited",
        "The clutch was slow to go down. Let the cue send the clutch down.",
        {"down": 0.42},
        lean=None,
        limits=USUAL | {"clutch_down": 0.4},
    ),
    Case(
        "a clutch half down",
        "The clutch was not down. Clutch first, past its middle, then blip.",
        {"depth": 49.9},
        reason=Reason.NO_CLUTCH,
        lean=None,
    ),
    Case(
        "a blip first",
        "The blip came before the clutch was down. Clutch first, then the blip.",
        {"down": 0.55},
        reason=Reason.BLIP_FIRST,
    ),
    Case(
        "a blip first, and a dip",
        "The blip came before the clutch was down. Clutch first, then the blip.",
        {"down": 0.55},
        HELD + bump(-22, 0.45),
        None,
        Reason.BLIP_FIRST,
    ),
    Case(
        "a clutch first",
        "The clutch came up before the blip was over. Blip over, then clutch up.",
        {"up": 0.55},
        reason=Reason.CLUTCH_FIRST,
    ),
    Case(
        "a clutch that stays down",
        "The clutch did not come up. Let it all the way up after the blip.",
        {"up": None},
        reason=Reason.CLUTCH_STAYED,
        lean=None,
    ),
    Case(
        "no blip",
        "No blip came. At the cue, one short blip.",
        {"peak": 0.0},
        reason=Reason.NO_BLIP,
        lean=None,
    ),
    Case(
        "a touch that is no blip",
        "The blip was too light. More throttle, and as short.",
        {"peak": 12.0},
        reason=Reason.LIGHT,
        lean=None,
    ),
    Case(
        "a pedal that jumped",
        "The throttle jumped faster than any foot. If it does so again, check its cable.",
        {"length": 0.02},
        reason=Reason.SHORT,
        lean=None,
    ),
    Case(
        "a stamp",
        "The blip was too big. Less throttle, and as short.",
        {"peak": 95.0},
        reason=Reason.HEAVY,
        blip={"blip.most": 80.0},
    ),
    Case(
        "a long stab",
        "The throttle stayed on too long. Make it short: in and out.",
        {"length": 0.7, "up": 1.3},
        reason=Reason.LONG,
    ),
    Case(
        "an early roll",
        "The brake left before the throttle. Keep the pedal heavy until the throttle answers.",
        brake=HELD + bump(-22, 0.25, 0.4),
        lean=-1.0,
    ),
    Case(
        "all of it late",
        "The blip came too late. Let the cue set off the throttle.",
        {"down": 0.9, "onset": 1.05, "up": 1.4},
        reason=Reason.LATE,
    ),
    Case(
        "grown heavy in the dark",
        "In the dark the brake grew too heavy. Keep the weight you had in the light.",
        brake=lines((0, 66.0)),
        lean=1.0,
        reason=Reason.OFF_TARGET,
    ),
    Case(
        "let go after the blip",
        "The brake was let go after the blip. Keep it on until the light returns.",
        brake=lines((1.0, 60.0), (1.01, 0.0)),
        lean=-1.0,
        reason=Reason.LET_GO,
    ),
)
