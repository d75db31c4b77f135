"""Blips with the sentence on each: the table that the tests of sentences replay."""

from tests.drills.blip_case import Bump, Case
from tests.drills.sentences_of_faults import FAULTS

ROLL = "roll on the ball, keep it pushing"

BLIPS = (
    Case("nothing", "Still: the brake stayed where it was through the blip."),
    Case(
        "a throttle at its stop that reads a little over",
        "Still: the brake stayed where it was through the blip.",
        peak=101.0,
    ),
    Case(
        "a small dip",
        "Clean: the brake gave a little and came straight back.",
        (Bump(-8),),
    ),
    Case(
        "a dip nearly as deep as it may be",
        "Clean: the brake gave no more than it may and came straight back.",
        (Bump(-14),),
    ),
    Case(
        "a dip that comes back over, all within limits",
        "Clean: the brake came back to where it was held.",
        (Bump(-10), Bump(6, at=230)),
    ),
    Case(
        "a small dip that does not come all the way back",
        "Clean: the brake stayed within what this level allows.",
        (Bump(-8),),
        shift=-4,
    ),
    Case(
        "a push within limits",
        "Clean: the brake came back to where it was held.",
        (Bump(8),),
    ),
    Case("a dip", f"The brake fell 22 points as the throttle went in: {ROLL}.", (Bump(-22),)),
    Case(
        "a dip a hair too deep",
        f"The brake fell 15.3 points as the throttle went in: {ROLL}.",
        (Bump(-15.3),),
    ),
    Case(
        "a dip as the foot turns",
        "The brake fell 22 points before the throttle moved: "
        "roll about the ball of the foot, do not lift to turn.",
        (Bump(-22, at=-90, length=150),),
    ),
    Case(
        "a dip on the way back",
        "The brake fell 22 points after the blip: roll back over the ball, do not lift it.",
        (Bump(-22, at=250),),
    ),
    Case(
        "a foot that comes off with the blip",
        "The foot came off the brake altogether as the throttle went in: "
        "keep the ball of the foot down while its edge rolls.",
        (Bump(-60),),
    ),
    Case(
        "a foot that comes off as it turns",
        "The foot came off the brake altogether before the throttle moved: "
        "keep the ball of the foot down while its edge rolls.",
        (Bump(-60, at=-90, length=150),),
    ),
    Case(
        "an early roll",
        "The brake left 0.15 s before the throttle and fell 22 points: "
        "roll and stab in one movement.",
        (Bump(-22, at=-145, length=200),),
    ),
    Case(
        "an early roll that is within limits",
        "Clean: the brake left 0.15 s before the throttle, within what this level allows.",
        (Bump(-12, at=-145, length=200),),
    ),
    Case(
        "an early roll that comes off",
        "The foot left the brake 0.15 s before the throttle and came off altogether: "
        "keep the ball of the foot down while its edge rolls.",
        (Bump(-60, at=-140, length=200),),
    ),
    Case(
        "a small early roll, and a dip on the way back",
        "The brake fell 22 points after the blip: roll back over the ball, do not lift it.",
        (Bump(-6, at=-145, length=100), Bump(-22, at=320)),
    ),
    Case(
        "a long early roll where that is limited",
        "The brake left 0.15 s before the throttle and was light for too long: "
        "roll and stab in one movement.",
        (Bump(-14, at=-205, length=900),),
        reaction=400,
        limits={"dip": 15.0, "shortfall": 3.0},
    ),
    Case(
        "an early roll that costs road",
        "The brake left 0.15 s before the throttle and cost too much road: "
        "roll and stab in one movement.",
        (Bump(-14, at=-205, length=600),),
        reaction=400,
        limits={"dip": 15.0, "extra_distance": 1.0},
    ),
    Case(
        "a push",
        "The brake rose 20 points with the throttle, the whole foot pushed: "
        "let the ball stay and only the edge roll.",
        (Bump(20),),
    ),
    Case(
        "a push before a dip",
        "The brake rose 20 points before it fell: "
        "do not brace for the blip, let the foot roll from where it rests.",
        (Bump(20, at=-80, length=100), Bump(-12)),
    ),
    Case(
        "a dip that comes back over",
        "The brake came back 20 points over where it was held: give back only what the roll took.",
        (Bump(-12), Bump(20, at=230)),
    ),
    Case(
        "the same where coming back over has its own limit",
        "The brake came back 8 points over where it was held: give back only what the roll took.",
        (Bump(-12), Bump(8, at=230)),
        limits={"dip": 15.0, "rebound": 5.0},
    ),
    Case(
        "a push where coming back over is limited",
        "The brake rose 8 points with the blip: let the ball stay and only the edge roll.",
        (Bump(8),),
        limits={"dip": 15.0, "rebound": 5.0},
    ),
    Case(
        "a brake that stays lighter",
        "The brake ended 8 points lighter than it was held: "
        "press back to the same weight as the throttle closes.",
        shift=-8,
        limits={"dip": 15.0, "offset": 5.0},
    ),
    Case(
        "a brake that stays heavier",
        "The brake ended 8 points heavier than it was held: "
        "let the roll come out without pressing on.",
        shift=8,
        limits={"surge": 15.0, "offset": 5.0},
    ),
    Case(
        "a brake that swings on and on",
        "The brake did not come to rest where it was held: let the foot come back once, and stay.",
        tuple(Bump(sign * 10, at=30 + 200 * k) for k, sign in enumerate((-1, 1, -1, 1, -1, 1, -1))),
        limits={"dip": 15.0, "surge": 15.0, "settle": 0.6},
    ),
    Case(
        "a brake that stays lighter and so never settles",
        "The brake ended 8 points lighter than it was held: "
        "press back to the same weight as the throttle closes.",
        (Bump(-12),),
        shift=-8,
    ),
    Case(
        "a foot that comes off with the blip and stays off",
        "The foot came off the brake altogether as the throttle went in: "
        "keep the ball of the foot down while its edge rolls.",
        let_go=60,
    ),
    Case(
        "a brake that is slow to come back",
        "The brake was slow to come to rest again: let the foot come back once, and stay.",
        (Bump(-12, length=900),),
    ),
    Case(
        "a slow answer",
        "The blip was slow to follow the cue: have the foot ready to roll.",
        (Bump(-8),),
        reaction=620,
    ),
    Case(
        "a blip wider than the limit",
        "The throttle stayed on too long: one short stab, in and out.",
        length=400,
        limits={"dip": 15.0, "width": 0.2},
    ),
    Case(
        "a throttle that goes in slowly",
        "The throttle went in slowly: stab it.",
        length=400,
        limits={"dip": 15.0, "rise": 0.1},
    ),
    Case(
        "a throttle that comes out slowly",
        "The throttle came out slowly: let it go at once.",
        length=400,
        limits={"dip": 15.0, "fall": 0.1},
    ),
    Case(
        "a long shallow dip",
        f"The brake was light for too long through the blip: {ROLL}.",
        (Bump(-10, length=800),),
        limits={"dip": 15.0, "shortfall": 3.0},
    ),
    Case(
        "a long shallow push",
        "The brake was heavy for too long through the blip: give back what you pressed on.",
        (Bump(10, length=800),),
        limits={"surge": 15.0, "excess": 3.0},
    ),
    Case(
        "a dip that costs road",
        f"The blip would have cost too much road: {ROLL}.",
        (Bump(-12, length=600),),
        limits={"dip": 15.0, "extra_distance": 1.0},
    ),
    Case(
        "a swing both ways",
        f"The brake swung 20 points from least to most: {ROLL}.",
        (Bump(-10), Bump(10, at=230)),
        limits={"dip": 15.0, "swing": 15.0},
    ),
    Case(
        "a dip where the mean is limited",
        f"The brake fell 12 points a blip: {ROLL}.",
        (Bump(-12),),
        limits={"mean_dip": 10.0},
    ),
    Case(
        "a brake that goes down with the throttle",
        f"The brake fell and came back with the throttle: {ROLL}.",
        (Bump(-14, at=0),),
        limits={"dip": 15.0, "coupling": 0.1},
    ),
    Case(
        "a brake that goes up with the throttle",
        "The brake rose and came back with the throttle: let the ball stay and only the edge roll.",
        (Bump(14, at=0),),
        limits={"dip": 15.0, "coupling": 0.1},
    ),
    Case(
        "a brake held too light where that is limited",
        "The brake was held 3 points lighter than the target: "
        "feel for it before the dark, then keep that weight.",
        held=57.0,
        limits={"dip": 15.0, "base_error": 2.0},
    ),
    Case(
        "a brake held too heavy where that is limited",
        "The brake was held 3 points heavier than the target: "
        "feel for it before the dark, then keep that weight.",
        held=63.0,
        limits={"dip": 15.0, "base_error": 2.0},
    ),
    *FAULTS,
)
