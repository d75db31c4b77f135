"""Runs that were not what was asked, and the sentence that is said of each."""

from drills.score import Reason
from tests.drills.kinds.made import bump, lines
from tests.drills.kinds.run_case import FIRST, HELD, Case

FAULTS = (
    Case(
        "none",
        "No blip came. After the knocks, one blip to each click.",
        late=(),
        lean=None,
        reason=Reason.NO_BLIP,
    ),
    Case(
        "one of three",
        "There were too few blips. One blip to each click.",
        late=(0.2,),
        lean=None,
        reason=Reason.FEW_BLIPS,
    ),
    Case(
        "one of three, and a dip",
        "There were too few blips. One blip to each click.",
        HELD + bump(-22, FIRST),
        late=(0.2,),
        lean=None,
        reason=Reason.FEW_BLIPS,
    ),
    Case(
        "one more than was asked",
        "There were too many blips. One blip to each click, none to the knocks.",
        late=(0.2, 0.2, 0.2, 0.1),
        reason=Reason.EXTRA_BLIP,
    ),
    Case(
        "on the last beat before, and not on the last cue",
        "A blip was nearer to another beat than its own. Count first, then blip.",
        late=(-0.7, -0.7, -0.7),
        reason=Reason.OFF_BEAT,
    ),
    Case(
        "feather taps",
        "A blip was too light. More throttle, and as short.",
        peak=20.0,
        reason=Reason.LIGHT,
    ),
    Case(
        "touches that are no blips",
        "A blip was too light. More throttle, and as short.",
        peak=12.0,
        lean=None,
        reason=Reason.LIGHT,
    ),
    Case(
        "a pedal that jumped",
        "The throttle jumped faster than any foot. If it does so again, check its cable.",
        lengths=(0.02,) * 3,
        lean=None,
        reason=Reason.SHORT,
    ),
    Case(
        "stamps",
        "A blip was too big. Less throttle, and as short.",
        peak=95.0,
        blip={"blip.most": 80.0},
        reason=Reason.HEAVY,
    ),
    Case(
        "a long one",
        "The throttle stayed on too long. Make each one short: in and out.",
        lengths=(0.2, 0.55, 0.2),
        blip={"blip.longest": 0.5},
        reason=Reason.LONG,
    ),
    Case(
        "one that never ends",
        "The throttle stayed on too long. Make each one short: in and out.",
        late=(0.2,),
        lengths=(1.5,),
        lean=None,
        reason=Reason.LONG,
    ),
    Case(
        "grown light in the dark",
        "In the dark the brake grew too light. Keep the weight you had in the light.",
        lines((0, 52.0)),
        lean=-1.0,
        reason=Reason.OFF_TARGET,
    ),
    Case(
        "let go before the first",
        "The brake was let go in the dark. Keep the weight on until the light returns.",
        lines((0, 1.0)),
        lean=-1.0,
        reason=Reason.LET_GO,
    ),
    Case(
        "let go after the last",
        "The brake was let go after the last blip. Keep it on until the light returns.",
        lines((4.0, 60.0), (4.01, 0.0)),
        lean=-1.0,
        reason=Reason.LET_GO,
    ),
)
