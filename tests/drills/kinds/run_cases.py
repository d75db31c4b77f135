"""Runs of blips as a person might do them, and the sentence that is said of each."""

from drills.score import Reason
from tests.drills.kinds.made import bump, lines
from tests.drills.kinds.run_case import FIRST, HELD, SECOND, THIRD, Case, two
from tests.drills.kinds.run_faults import FAULTS

CASES = (
    Case(
        "nothing",
        "The brake hardly dipped. The same again.",
        reason=Reason.CLEAN,
    ),
    Case(
        "a throttle at its stop that reads a little over",
        "The brake hardly dipped. The same again.",
        peak=101.0,
        reason=Reason.CLEAN,
    ),
    Case(
        "a little at each",
        "All blips took about the same, inside the limit. Stay as heavy through all of them.",
        HELD + bump(-8, FIRST) + bump(-9, SECOND) + bump(-8, THIRD),
        reason=Reason.CLEAN,
    ),
    Case(
        "a dip in the middle",
        "The brake fell most during the second blip. Feel the same pressure all through.",
        HELD + bump(-22, SECOND),
        lean=-1.0,
    ),
    Case(
        "a dip as the foot turns",
        "The brake fell most before the third blip. Keep the pedal heavy until the throttle moves.",
        HELD + bump(-22, THIRD - 0.09, 0.1),
        lean=-1.0,
    ),
    Case(
        "an early roll before the first",
        "The brake left before the throttle. Keep the pedal heavy until the throttle answers.",
        HELD + bump(-22, FIRST - 0.27, 0.4) + bump(-12, SECOND),
        lean=-1.0,
    ),
    Case(
        "an early roll before the first that comes off",
        "The brake left before the throttle, and came off "
        "altogether. Never let the pedal come all the way up.",
        HELD + bump(-60, FIRST - 0.26, 0.4),
        lean=-1.0,
    ),
    Case(
        "a small early roll, and a dip at the second",
        "The brake fell most during the second blip. Feel the same pressure all through.",
        HELD + bump(-12, FIRST - 0.26, 0.4) + bump(-22, SECOND),
        lean=-1.0,
    ),
    Case(
        "a dip on the way back",
        "The brake fell most after the first blip. Keep the pedal heavy as the throttle closes.",
        HELD + bump(-22, FIRST + 0.22),
        lean=-1.0,
    ),
    Case(
        "deeper each time, and back each time",
        "The dip grew from blip to blip. Make the last as heavy as the first.",
        HELD + bump(-5, FIRST) + bump(-12, SECOND) + bump(-20, THIRD),
        lean=-1.0,
    ),
    Case(
        "lighter each time",
        "The dip grew from blip to blip. Make the last as heavy as the first.",
        lines((FIRST, 60), (2, 54), (SECOND, 54), (2.8, 48), (THIRD, 48), (3.6, 42)),
        limits={"dip": 15.0},
        lean=-1.0,
    ),
    Case(
        "a foot that comes off",
        "The brake came off altogether during the second blip. Never "
        "let the pedal come all the way up.",
        HELD + bump(-60, SECOND),
        lean=-1.0,
    ),
    Case(
        "a push",
        "The brake rose above what was held. Let the throttle go in without pressing harder.",
        HELD + bump(20, SECOND),
        lean=1.0,
    ),
    Case(
        "back over after each",
        "After a blip the brake came back too heavy. Come back to the same weight, no further.",
        HELD + sum(bump(-8, at) + bump(20, at + 0.2) for at in (FIRST, SECOND, THIRD)),
        lean=1.0,
    ),
    Case(
        "back over where that is limited",
        "The brake overshot as it came back. Come back to the same weight, no further.",
        HELD + sum(bump(-8, at) + bump(8, at + 0.2) for at in (FIRST, SECOND, THIRD)),
        lean=1.0,
        limits={"dip": 15.0, "rebound": 5.0},
    ),
    Case(
        "lighter at the end",
        "The brake ended lighter than it was held. Come back to the weight you held.",
        lines((THIRD, 60), (THIRD + 0.1, 52)),
        lean=-1.0,
    ),
    Case(
        "uneven",
        "The blips came unevenly. Keep counting through the blips.",
        late=(0.2, 0.4, 0.1),
        lean=None,
    ),
    Case(
        "even and too quick",
        "The blips were quicker than the beat. Let the beat come to you.",
        late=(0.36, 0.16, -0.04),
        lean=None,
    ),
    Case(
        "even and too slow",
        "The blips were slower than the beat. Keep counting through the blips.",
        late=(-0.04, 0.16, 0.36),
        lean=None,
    ),
    Case(
        "two, too close",
        "The second blip came too soon after the first. Let the beat come to you.",
        late=(0.3, 0.1),
        blip=two(),
        lean=None,
    ),
    Case(
        "two, too far apart",
        "The second blip was late after the first. Keep counting through the blips.",
        late=(0.1, 0.3),
        blip=two(),
        lean=None,
    ),
    Case(
        "one behind its cue",
        "The second blip came late. Blip with the click, not after it.",
        late=(0.2, 0.25, 0.2),
        limits={"dip": 15.0, "lateness": 0.22},
        lean=None,
    ),
    Case(
        "one ahead of its cue",
        "The third blip came too soon. Let the beat come to you.",
        late=(0.1, 0.2, -0.25),
        limits={"dip": 15.0, "lateness": 0.22},
        lean=None,
    ),
    Case(
        "a wide blip where that is limited",
        "A blip lasted too long. Make each one short: in and out.",
        lengths=(0.2, 0.4, 0.2),
        limits={"dip": 15.0, "width": 0.3},
    ),
    Case(
        "slow to come to rest after the last",
        "The brake was slow to settle. Come back once, and stay.",
        HELD + bump(-12, THIRD, 0.9),
        limits={"dip": 15.0, "settle": 0.6},
        lean=None,
    ),
    Case(
        "a long shallow dip",
        "The brake was light for too long. Feel the same pressure all through.",
        lines((FIRST, 60), (FIRST + 0.1, 52), (4.2, 52), (4.3, 60)),
        limits={"dip": 15.0, "shortfall": 3.0},
        lean=-1.0,
    ),
    Case(
        "a long shallow push",
        "The brake was heavy for too long. Let the throttle go in without pressing harder.",
        lines((FIRST, 60), (FIRST + 0.1, 68), (4.2, 68), (4.3, 60)),
        limits={"surge": 15.0, "excess": 3.0},
        lean=1.0,
    ),
    Case(
        "dips that cost road",
        "The lost brake would have cost too much road. Feel the same pressure all through.",
        HELD + bump(-12, FIRST, 0.6) + bump(-12, SECOND, 0.6),
        limits={"dip": 15.0, "extra_distance": 1.0},
        lean=-1.0,
    ),
    Case(
        "both ways",
        "The brake moved too far from least to most. Keep the pedal quiet under the blip.",
        HELD + bump(-12, FIRST) + bump(10, SECOND),
        limits={"dip": 15.0, "swing": 15.0},
        lean=None,
    ),
    Case(
        "much on the whole",
        "Taken together, the blips took too much brake. Feel the same pressure all through.",
        HELD + bump(-12, FIRST) + bump(-12, SECOND) + bump(-12, THIRD),
        limits={"mean_dip": 10.0},
        lean=-1.0,
    ),
    Case(
        "down with the throttle",
        "The brake fell and came back with the throttle. Feel the same pressure all through.",
        HELD + bump(-14, SECOND),
        limits={"dip": 15.0, "coupling": 0.1},
        lean=-1.0,
    ),
    Case(
        "held too light where that is limited",
        "The brake was lighter than asked in the dark. Remember its weight from before the dark.",
        lines((0, 57.0)),
        limits={"dip": 15.0, "base_error": 2.0},
        lean=-1.0,
    ),
    *FAULTS,
)
