"""Blips with the sentence on each: the table that the tests of sentences replay."""

from tests.drills.blip_case import Bump, Case
from tests.drills.sentences_of_faults import FAULTS

BLIPS = (
    Case("nothing", "The brake hardly dipped. The same again."),
    Case(
        "a throttle at its stop that reads a little over",
        "The brake hardly dipped. The same again.",
        peak=101.0,
    ),
    Case(
        "a small dip",
        "Some brake went with the throttle, not too much. Stay as heavy all through the next.",
        (Bump(-8),),
    ),
    Case(
        "a dip nearly as deep as it may be",
        "Some brake went with the throttle, only just inside. Stay heavier as the throttle moves.",
        (Bump(-14),),
    ),
    Case(
        "a dip that comes back over, all within limits",
        "Some brake went with the throttle, not too much. Stay as heavy all through the next.",
        (Bump(-10), Bump(6, at=230)),
    ),
    Case(
        "a small dip that does not come all the way back",
        "The brake ended on the light side, near enough. Come back to the full weight.",
        (Bump(-8),),
        shift=-4,
    ),
    Case(
        "a push within limits",
        "The brake rose, but not too far. Let the throttle go in, the brake unmoved.",
        (Bump(8),),
    ),
    Case(
        "a dip", "The brake fell during the blip. Feel the same pressure all through.", (Bump(-22),)
    ),
    Case(
        "a dip a hair too deep",
        "The brake fell during the blip. Feel the same pressure all through.",
        (Bump(-15.3),),
    ),
    Case(
        "a dip as the foot turns",
        "The brake fell before the throttle moved. Keep the pedal heavy until the throttle moves.",
        (Bump(-22, at=-90, length=150),),
    ),
    Case(
        "a dip on the way back",
        "The brake fell after the blip. Keep the pedal heavy as the throttle closes.",
        (Bump(-22, at=250),),
    ),
    Case(
        "a foot that comes off with the blip",
        "The brake came off altogether during the blip. Never let the pedal come all the way up.",
        (Bump(-60),),
    ),
    Case(
        "a foot that comes off as it turns",
        "The brake came off altogether before the throttle moved. "
        "Never let the pedal come all the way up.",
        (Bump(-60, at=-90, length=150),),
    ),
    Case(
        "an early roll",
        "The brake left before the throttle. Keep the pedal heavy until the throttle answers.",
        (Bump(-22, at=-145, length=200),),
    ),
    Case(
        "an early roll that is within limits",
        "Some brake left before the throttle came. Keep it heavy until the throttle moves.",
        (Bump(-12, at=-145, length=200),),
    ),
    Case(
        "an early roll that comes off",
        "The brake left before the throttle, and came off "
        "altogether. Never let the pedal come all the way up.",
        (Bump(-60, at=-140, length=200),),
    ),
    Case(
        "a small early roll, and a dip on the way back",
        "The brake fell after the blip. Keep the pedal heavy as the throttle closes.",
        (Bump(-6, at=-145, length=100), Bump(-22, at=320)),
    ),
    Case(
        "a long early roll where that is limited",
        "The brake left early, and stayed light too long. Keep the "
        "pedal heavy until the throttle answers.",
        (Bump(-14, at=-205, length=900),),
        reaction=400,
        limits={"dip": 15.0, "shortfall": 3.0},
    ),
    Case(
        "an early roll that costs road",
        "The brake left early, which costs road. Keep the pedal heavy until the throttle answers.",
        (Bump(-14, at=-205, length=600),),
        reaction=400,
        limits={"dip": 15.0, "extra_distance": 1.0},
    ),
    Case(
        "a push",
        "The brake rose with the blip. Let the throttle go in without pressing harder.",
        (Bump(20),),
    ),
    Case(
        "a push before a dip",
        "The brake rose, then fell. Start the blip from the weight you hold.",
        (Bump(20, at=-80, length=100), Bump(-12)),
    ),
    Case(
        "a dip that comes back over",
        "The brake came back too heavy. Come back to the same weight, no further.",
        (Bump(-12), Bump(20, at=230)),
    ),
    Case(
        "the same where coming back over has its own limit",
        "The brake overshot as it came back. Come back to the same weight, no further.",
        (Bump(-12), Bump(8, at=230)),
        limits={"dip": 15.0, "rebound": 5.0},
    ),
    Case(
        "a push where coming back over is limited",
        "The brake went above what was held. Let the throttle go in without pressing harder.",
        (Bump(8),),
        limits={"dip": 15.0, "rebound": 5.0},
    ),
    Case(
        "a brake that stays lighter",
        "The brake ended lighter than it was held. Come back to the weight you held.",
        shift=-8,
        limits={"dip": 15.0, "offset": 5.0},
    ),
    Case(
        "a brake that stays heavier",
        "The brake ended heavier than it was held. Finish only as heavy as you began.",
        shift=8,
        limits={"surge": 15.0, "offset": 5.0},
    ),
    Case(
        "a brake that swings on and on",
        "The brake never settled after the blip. Come back once, and stay.",
        tuple(Bump(sign * 10, at=30 + 200 * k) for k, sign in enumerate((-1, 1, -1, 1, -1, 1, -1))),
        limits={"dip": 15.0, "surge": 15.0, "settle": 0.6},
    ),
    Case(
        "a brake that stays lighter and so never settles",
        "The brake ended lighter than it was held. Come back to the weight you held.",
        (Bump(-12),),
        shift=-8,
    ),
    Case(
        "a foot that comes off with the blip and stays off",
        "The brake came off altogether during the blip. Never let the pedal come all the way up.",
        let_go=60,
    ),
    Case(
        "a brake that is slow to come back",
        "The brake was slow to settle. Come back once, and stay.",
        (Bump(-12, length=900),),
    ),
    Case(
        "a slow answer",
        "The blip was slow to follow the cue. Let the cue set off the throttle.",
        (Bump(-8),),
        reaction=620,
    ),
    Case(
        "a blip wider than the limit",
        "The throttle stayed on too long. Make it short: in and out.",
        length=400,
        limits={"dip": 15.0, "width": 0.2},
    ),
    Case(
        "a throttle that goes in slowly",
        "The throttle went in slowly. Make the start of the blip sharp.",
        length=400,
        limits={"dip": 15.0, "rise": 0.1},
    ),
    Case(
        "a throttle that comes out slowly",
        "The throttle came out slowly. Make the end of the blip sharp.",
        length=400,
        limits={"dip": 15.0, "fall": 0.1},
    ),
    Case(
        "a long shallow dip",
        "The brake was light for too long. Feel the same pressure all through.",
        (Bump(-10, length=800),),
        limits={"dip": 15.0, "shortfall": 3.0},
    ),
    Case(
        "a long shallow push",
        "The brake was heavy for too long. Let the throttle go in without pressing harder.",
        (Bump(10, length=800),),
        limits={"surge": 15.0, "excess": 3.0},
    ),
    Case(
        "a dip that costs road",
        "The lost brake would have cost too much road. Feel the same pressure all through.",
        (Bump(-12, length=600),),
        limits={"dip": 15.0, "extra_distance": 1.0},
    ),
    Case(
        "a swing both ways",
        "The brake moved too far from least to most. Keep the pedal quiet under the blip.",
        (Bump(-10), Bump(10, at=230)),
        limits={"dip": 15.0, "swing": 15.0},
    ),
    Case(
        "a dip where the mean is limited",
        "Taken together, the blips took too much brake. Feel the same pressure all through.",
        (Bump(-12),),
        limits={"mean_dip": 10.0},
    ),
    Case(
        "a brake that goes down with the throttle",
        "The brake fell and came back with the throttle. Feel the same pressure all through.",
        (Bump(-14, at=0),),
        limits={"dip": 15.0, "coupling": 0.1},
    ),
    Case(
        "a brake that goes up with the throttle",
        "The brake rose and came back with the throttle. Let the "
        "throttle go in without pressing harder.",
        (Bump(14, at=0),),
        limits={"dip": 15.0, "coupling": 0.1},
    ),
    Case(
        "a brake held too light where that is limited",
        "The brake was lighter than asked in the dark. Remember its weight from before the dark.",
        held=57.0,
        limits={"dip": 15.0, "base_error": 2.0},
    ),
    Case(
        "a brake held too heavy where that is limited",
        "The brake was heavier than asked in the dark. Remember its weight from before the dark.",
        held=63.0,
        limits={"dip": 15.0, "base_error": 2.0},
    ),
    *FAULTS,
)
