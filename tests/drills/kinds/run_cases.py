"""Runs of blips as a person might do them, and the sentence that is said of each."""

from drills.score import Reason
from tests.drills.kinds.made import bump, lines
from tests.drills.kinds.run_case import FIRST, HELD, SECOND, THIRD, Case, two
from tests.drills.kinds.run_faults import FAULTS

ROLL = "roll on the ball, keep it pushing"
STILL = "Still: the brake stayed where it was through the whole run."

CASES = (
    Case("nothing", STILL, reason=Reason.CLEAN),
    Case("a throttle at its stop that reads a little over", STILL, peak=101.0, reason=Reason.CLEAN),
    Case(
        "a little at each",
        "Clean: blip after blip, the brake stayed within what this level allows.",
        HELD + bump(-8, FIRST) + bump(-9, SECOND) + bump(-8, THIRD),
        reason=Reason.CLEAN,
    ),
    Case(
        "a dip in the middle",
        f"The brake fell 22 points at the second of 3 blips: {ROLL}.",
        HELD + bump(-22, SECOND),
        lean=-1.0,
    ),
    Case(
        "a dip as the foot turns",
        "The brake fell 22 points before the third of 3 blips: "
        "roll about the ball of the foot, do not lift to turn.",
        HELD + bump(-22, THIRD - 0.09, 0.1),
        lean=-1.0,
    ),
    Case(
        "an early roll before the first",
        "The brake left 0.25 s before the first of 3 blips and fell 22 points: "
        "roll and stab in one movement.",
        HELD + bump(-22, FIRST - 0.27, 0.4) + bump(-12, SECOND),
        lean=-1.0,
    ),
    Case(
        "an early roll before the first that comes off",
        "The foot left the brake 0.25 s before the first blip and came off altogether: "
        "keep the ball of the foot down while its edge rolls.",
        HELD + bump(-60, FIRST - 0.26, 0.4),
        lean=-1.0,
    ),
    Case(
        "a small early roll, and a dip at the second",
        f"The brake fell 22 points at the second of 3 blips: {ROLL}.",
        HELD + bump(-12, FIRST - 0.26, 0.4) + bump(-22, SECOND),
        lean=-1.0,
    ),
    Case(
        "a dip on the way back",
        "The brake fell 22 points after the first of 3 blips: "
        "roll back over the ball, do not lift it.",
        HELD + bump(-22, FIRST + 0.22),
        lean=-1.0,
    ),
    Case(
        "deeper each time, and back each time",
        f"The brake fell further with every blip, 20 points by the third: {ROLL}.",
        HELD + bump(-5, FIRST) + bump(-12, SECOND) + bump(-20, THIRD),
        lean=-1.0,
    ),
    Case(
        "lighter each time",
        "The brake fell further with every blip, 18 points by the third: "
        "give back each time what the roll took.",
        lines((FIRST, 60), (2, 54), (SECOND, 54), (2.8, 48), (THIRD, 48), (3.6, 42)),
        limits={"dip": 15.0},
        lean=-1.0,
    ),
    Case(
        "a foot that comes off",
        "The foot came off the brake altogether at the second blip: "
        "keep the ball of the foot down while its edge rolls.",
        HELD + bump(-60, SECOND),
        lean=-1.0,
    ),
    Case(
        "a push",
        "The brake went 20 points over what was held: let the ball stay and only the edge roll.",
        HELD + bump(20, SECOND),
        lean=1.0,
    ),
    Case(
        "back over after each",
        "The brake went 20 points over what was held: give back only what the roll took.",
        HELD + sum(bump(-8, at) + bump(20, at + 0.2) for at in (FIRST, SECOND, THIRD)),
        lean=1.0,
    ),
    Case(
        "back over where that is limited",
        "The brake went 8 points over what was held: give back only what the roll took.",
        HELD + sum(bump(-8, at) + bump(8, at + 0.2) for at in (FIRST, SECOND, THIRD)),
        lean=1.0,
        limits={"dip": 15.0, "rebound": 5.0},
    ),
    Case(
        "lighter at the end",
        "The brake ended 8 points lighter than it was held: "
        "press back to the same weight as the throttle closes.",
        lines((THIRD, 60), (THIRD + 0.1, 52)),
        lean=-1.0,
    ),
    Case(
        "uneven",
        "The blips came unevenly: count on through them, and let the foot keep time.",
        late=(0.2, 0.4, 0.1),
        lean=None,
    ),
    Case(
        "even and too quick",
        "The blips came too quickly one after the other: let the beat come to the foot.",
        late=(0.36, 0.16, -0.04),
        lean=None,
    ),
    Case(
        "even and too slow",
        "The blips came too slowly one after the other: keep counting, and roll on the count.",
        late=(-0.04, 0.16, 0.36),
        lean=None,
    ),
    Case(
        "two, too close",
        "The second blip came too soon after the first: let the beat come to the foot.",
        late=(0.3, 0.1),
        blip=two(),
        lean=None,
    ),
    Case(
        "two, too far apart",
        "The second blip came too long after the first: keep counting, and roll on the count.",
        late=(0.1, 0.3),
        blip=two(),
        lean=None,
    ),
    Case(
        "one behind its cue",
        "The second blip came behind its cue: roll on the beat, not after it.",
        late=(0.2, 0.25, 0.2),
        limits={"dip": 15.0, "lateness": 0.22},
        lean=None,
    ),
    Case(
        "one ahead of its cue",
        "The third blip came ahead of its cue: wait for the beat.",
        late=(0.1, 0.2, -0.25),
        limits={"dip": 15.0, "lateness": 0.22},
        lean=None,
    ),
    Case(
        "a wide blip where that is limited",
        "A blip was too wide: each one a short stab, in and out.",
        lengths=(0.2, 0.4, 0.2),
        limits={"dip": 15.0, "width": 0.3},
    ),
    Case(
        "slow to come to rest after the last",
        "The brake was slow to come to rest again: let the foot come back once, and stay.",
        HELD + bump(-12, THIRD, 0.9),
        limits={"dip": 15.0, "settle": 0.6},
        lean=None,
    ),
    Case(
        "a long shallow dip",
        f"The brake was light for too long through the run: {ROLL}.",
        lines((FIRST, 60), (FIRST + 0.1, 52), (4.2, 52), (4.3, 60)),
        limits={"dip": 15.0, "shortfall": 3.0},
        lean=-1.0,
    ),
    Case(
        "a long shallow push",
        "The brake was heavy for too long through the run: give back what you pressed on.",
        lines((FIRST, 60), (FIRST + 0.1, 68), (4.2, 68), (4.3, 60)),
        limits={"surge": 15.0, "excess": 3.0},
        lean=1.0,
    ),
    Case(
        "dips that cost road",
        f"The run would have cost too much road: {ROLL}.",
        HELD + bump(-12, FIRST, 0.6) + bump(-12, SECOND, 0.6),
        limits={"dip": 15.0, "extra_distance": 1.0},
        lean=-1.0,
    ),
    Case(
        "both ways",
        f"The brake swung 22 points from least to most: {ROLL}.",
        HELD + bump(-12, FIRST) + bump(10, SECOND),
        limits={"dip": 15.0, "swing": 15.0},
        lean=None,
    ),
    Case(
        "much on the whole",
        f"The brake fell 12 points a blip: {ROLL}.",
        HELD + bump(-12, FIRST) + bump(-12, SECOND) + bump(-12, THIRD),
        limits={"mean_dip": 10.0},
        lean=-1.0,
    ),
    Case(
        "down with the throttle",
        f"The brake fell and came back with the throttle: {ROLL}.",
        HELD + bump(-14, SECOND),
        limits={"dip": 15.0, "coupling": 0.1},
        lean=-1.0,
    ),
    Case(
        "held too light where that is limited",
        "The brake was held 3 points lighter than the target: "
        "feel for it before the dark, then keep that weight.",
        lines((0, 57.0)),
        limits={"dip": 15.0, "base_error": 2.0},
        lean=-1.0,
    ),
    *FAULTS,
)
