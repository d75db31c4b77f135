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
LATE = "The clutch was up late, as "
ROLL = "roll on the ball, keep it pushing"


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
        "Still: the brake stayed where it was through the blip.",
        reason=Reason.CLEAN,
    ),
    Case(
        "with a small dip",
        "Clean: the brake gave a little and came straight back.",
        brake=HELD + bump(-8, 0.45),
        reason=Reason.CLEAN,
    ),
    Case(
        "a dip",
        f"The brake fell 22 points as the throttle went in: {ROLL}.",
        brake=HELD + bump(-22, 0.45),
        lean=-1.0,
    ),
    Case(
        "a foot that comes off",
        "The foot came off the brake altogether as the throttle went in: "
        "keep the ball of the foot down while its edge rolls.",
        brake=HELD + bump(-60, 0.45),
        lean=-1.0,
    ),
    Case(
        "a push",
        "The brake rose 20 points with the throttle, the whole foot pushed: "
        "let the ball stay and only the edge roll.",
        brake=HELD + bump(20, 0.45),
        lean=1.0,
    ),
    Case(
        "a clutch that stays down after the blip",
        f"{LATE}the clutch stayed down after the blip: let it up as soon as the blip is over.",
        {"up": 1.6},
        lean=None,
    ),
    Case(
        "a clutch that is slow to go down",
        f"{LATE}the clutch was slow to go down: have the left foot ready at the cue.",
        {"down": 0.75, "onset": 0.9, "up": 1.25},
        lean=None,
        limits=USUAL | {"clutch_up": 1.1},
    ),
    Case(
        "a blip that is slow to follow the clutch",
        f"{LATE}the blip was slow to follow it: roll as soon as the clutch is down.",
        {"onset": 0.9, "up": 1.25},
        lean=None,
        limits=USUAL | {"clutch_up": 1.1},
    ),
    Case(
        "a throttle that stays on",
        f"{LATE}the throttle stayed on: one short stab, in and out.",
        {"length": 0.55, "up": 1.15},
        lean=None,
        limits=USUAL | {"clutch_up": 1.1},
    ),
    Case(
        "a clutch slow to go down where that is limited",
        "The clutch was slow to go down: have the left foot ready at the cue.",
        {"down": 0.42},
        lean=None,
        limits=USUAL | {"clutch_down": 0.4},
    ),
    Case(
        "a clutch half down",
        "The clutch was not down: press it past its middle, before the blip.",
        {"depth": 49.9},
        reason=Reason.NO_CLUTCH,
        lean=None,
    ),
    Case(
        "a blip first",
        "The blip came before the clutch was down: clutch first, then blip.",
        {"down": 0.55},
        reason=Reason.BLIP_FIRST,
    ),
    Case(
        "a blip first, and a dip",
        "The blip came before the clutch was down: clutch first, then blip.",
        {"down": 0.55},
        HELD + bump(-22, 0.45),
        None,
        Reason.BLIP_FIRST,
    ),
    Case(
        "a clutch first",
        "The clutch came up before the blip was over: let it up after the blip.",
        {"up": 0.55},
        reason=Reason.CLUTCH_FIRST,
    ),
    Case(
        "a clutch that stays down",
        "The clutch did not come up: let it all the way up after the blip.",
        {"up": None},
        reason=Reason.CLUTCH_STAYED,
        lean=None,
    ),
    Case(
        "no blip",
        "No blip came: at the cue, one short stab of the throttle.",
        {"peak": 0.0},
        reason=Reason.NO_BLIP,
        lean=None,
    ),
    Case(
        "a touch that is no blip",
        "The blip was too light: stab deeper, and as short.",
        {"peak": 12.0},
        reason=Reason.LIGHT,
        lean=None,
    ),
    Case(
        "a pedal that jumped",
        "The throttle only jumped, quicker than any foot: if it does again, check its cable.",
        {"length": 0.02},
        reason=Reason.SHORT,
        lean=None,
    ),
    Case(
        "a stamp",
        "The blip was too big: stab less deep, and as short.",
        {"peak": 95.0},
        reason=Reason.HEAVY,
        blip={"blip.most": 80.0},
    ),
    Case(
        "a long stab",
        "The throttle stayed on too long: one short stab, in and out.",
        {"length": 0.7, "up": 1.3},
        reason=Reason.LONG,
    ),
    Case(
        "an early roll",
        "The brake left 0.20 s before the throttle and fell 22 points: "
        "roll and stab in one movement.",
        brake=HELD + bump(-22, 0.25, 0.4),
        lean=-1.0,
    ),
    Case(
        "all of it late",
        "The blip came too late: have the foot ready to roll at the cue.",
        {"down": 0.9, "onset": 1.05, "up": 1.4},
        reason=Reason.LATE,
    ),
    Case(
        "grown heavy in the dark",
        "The brake left the target in the dark, on the heavy side: "
        "keep the weight you had when the light went.",
        brake=lines((0, 66.0)),
        lean=1.0,
        reason=Reason.OFF_TARGET,
    ),
    Case(
        "let go after the blip",
        "The brake was let go after the blip: keep it on until the light comes back.",
        brake=lines((1.0, 60.0), (1.01, 0.0)),
        lean=-1.0,
        reason=Reason.LET_GO,
    ),
)
