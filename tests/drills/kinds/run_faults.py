"""Runs that were not what was asked, and the sentence that is said of each."""

from drills.score import Reason
from tests.drills.kinds.made import bump, lines
from tests.drills.kinds.run_case import FIRST, HELD, Case

FAULTS = (
    Case(
        "none",
        "No blip came: after the beats, one to each cue.",
        late=(),
        lean=None,
        reason=Reason.NO_BLIP,
    ),
    Case(
        "one of three",
        "There were too few blips: to each cue one stab, in and out.",
        late=(0.2,),
        lean=None,
        reason=Reason.FEW_BLIPS,
    ),
    Case(
        "one of three, and a dip",
        "There were too few blips: to each cue one stab, in and out.",
        HELD + bump(-22, FIRST),
        late=(0.2,),
        lean=None,
        reason=Reason.FEW_BLIPS,
    ),
    Case(
        "one more than was asked",
        "There were too many blips: one to each cue, none to the beats before.",
        late=(0.2, 0.2, 0.2, 0.1),
        reason=Reason.EXTRA_BLIP,
    ),
    Case(
        "on the last beat before, and not on the last cue",
        "A blip lay nearer to another beat than to its own: count, then roll.",
        late=(-0.7, -0.7, -0.7),
        reason=Reason.OFF_BEAT,
    ),
    Case(
        "feather taps",
        "A blip was too light: stab deeper, and as short.",
        peak=20.0,
        reason=Reason.LIGHT,
    ),
    Case(
        "touches that are no blips",
        "A blip was too light: stab deeper, and as short.",
        peak=12.0,
        lean=None,
        reason=Reason.LIGHT,
    ),
    Case(
        "a pedal that jumped",
        "The throttle only jumped, quicker than any foot: if it does again, check its cable.",
        lengths=(0.02,) * 3,
        lean=None,
        reason=Reason.SHORT,
    ),
    Case(
        "stamps",
        "A blip was too big: stab less deep, and as short.",
        peak=95.0,
        blip={"blip.most": 80.0},
        reason=Reason.HEAVY,
    ),
    Case(
        "a long one",
        "The throttle stayed on too long: each blip one short stab, in and out.",
        lengths=(0.2, 0.55, 0.2),
        blip={"blip.longest": 0.5},
        reason=Reason.LONG,
    ),
    Case(
        "one that never ends",
        "The throttle stayed on too long: each blip one short stab, in and out.",
        late=(0.2,),
        lengths=(1.5,),
        lean=None,
        reason=Reason.LONG,
    ),
    Case(
        "grown light in the dark",
        "The brake left the target in the dark, on the light side: "
        "keep the weight you had when the light went.",
        lines((0, 52.0)),
        lean=-1.0,
        reason=Reason.OFF_TARGET,
    ),
    Case(
        "let go before the first",
        "The brake was let go in the dark: keep the weight on until the light comes back.",
        lines((0, 1.0)),
        lean=-1.0,
        reason=Reason.LET_GO,
    ),
    Case(
        "let go after the last",
        "The brake was let go after the last blip: keep it on until the light comes back.",
        lines((4.0, 60.0), (4.01, 0.0)),
        lean=-1.0,
        reason=Reason.LET_GO,
    ),
)
