"""Ways down as a person might come, and the sentence that is said of each."""

import numpy as np

from drills.score import Reason
from tests.drills.kinds.made import TIME, bump, lines
from tests.drills.kinds.trail_case import DOWN, EASE, STARTS, Case

ONE, TWO = 1.2, 2.0
"""s from the cue, onsets of a first and a second blip."""
EASE_ON = "ease with the leg, and let only the edge roll."
BOWED = np.where(
    (STARTS < TIME) & (STARTS + EASE > TIME), 15 * np.sin(np.pi * (TIME - STARTS) / EASE), 0.0
)
SWAYED = np.where(
    (STARTS < TIME) & (STARTS + EASE > TIME), 9 * np.sin(2 * np.pi * (TIME - STARTS) / EASE), 0.0
)
CLEAN = Reason.CLEAN

CASES = (
    Case(
        "straight down",
        "Clean: straight down, from the weight that was held to nothing.",
        reason=CLEAN,
    ),
    Case(
        "straight down, and not to nothing",
        "Clean: straight down, though not quite to nothing.",
        np.maximum(DOWN, 5.5),
        limits={"ramp_worst": 12.0},
        reason=CLEAN,
    ),
    Case(
        "bowed as far as it may be",
        "Clean: the way down stayed within what this level allows.",
        DOWN + 0.8 * BOWED,
        reason=CLEAN,
    ),
    Case(
        "let go at once where only the start is limited",
        "Clean: the way down stayed within what this level allows.",
        np.where(TIME < STARTS, 60.0, 0.0),
        reason=CLEAN,
        limits={"release_start": 0.8},
    ),
    Case(
        "with a blip that leaves no mark",
        "Clean: straight down, and the blip leaves no mark.",
        blips=1,
        at=(ONE,),
        reason=CLEAN,
    ),
    Case(
        "with two that leave none",
        "Clean: straight down, and the blips leave no mark.",
        blips=2,
        at=(ONE, TWO),
        reason=CLEAN,
    ),
    Case(
        "with a small dip",
        "Clean: the brake gave a little at the blip, and went on down.",
        DOWN + bump(-9, ONE),
        1,
        (ONE,),
        reason=CLEAN,
    ),
    Case(
        "with a dip as deep as it may be",
        "Clean: the brake gave no more than it may at the blips, and went on down.",
        DOWN + bump(-14, ONE),
        2,
        (ONE, TWO),
        reason=CLEAN,
        limits={"dip": 15.0},
    ),
    Case(
        "with a small push",
        "Clean: the brake rose a little at the blip, and went on down.",
        DOWN + bump(9, ONE),
        1,
        (ONE,),
        reason=CLEAN,
    ),
    Case(
        "a limit on the dip where no blip is asked means nothing",
        "Clean: straight down, from the weight that was held to nothing.",
        limits={"dip": 10.0, "lateness": 0.2, "ramp_worst": 12.0},
        reason=CLEAN,
    ),
    Case(
        "a dip",
        f"The brake fell 18 points under its way down at the blip: {EASE_ON}",
        DOWN + bump(-18, ONE),
        1,
        (ONE,),
        -1.0,
    ),
    Case(
        "a dip at the second of two",
        f"The brake fell 14 points under its way down at the second blip: {EASE_ON}",
        DOWN + bump(-14, TWO),
        2,
        (ONE, TWO),
        -1.0,
    ),
    Case(
        "a foot that rolls before its throttle",
        "The brake left before the throttle and fell 18 points under its way down at the blip: "
        "roll and stab in one movement.",
        DOWN + bump(-18, ONE - 0.25, 0.5),
        1,
        (ONE,),
        -1.0,
    ),
    Case(
        "much on the whole",
        f"The brake fell 12 points under its way down a blip: {EASE_ON}",
        DOWN + bump(-12, ONE) + bump(-12, TWO),
        2,
        (ONE, TWO),
        -1.0,
        limits={"mean_dip": 10.0},
    ),
    Case(
        "light for long",
        f"The brake fell too much under its way down at the blip: {EASE_ON}",
        DOWN + bump(-9, ONE, 0.3),
        1,
        (ONE,),
        -1.0,
        limits={"shortfall": 1.0},
    ),
    Case(
        "a dip that costs road",
        f"The brake fell too much under its way down at the blips: {EASE_ON}",
        DOWN + bump(-9, ONE, 0.3),
        2,
        (ONE, TWO),
        -1.0,
        limits={"extra_distance": 0.5},
    ),
    Case(
        "a push",
        "The brake stood 18 points over its way down at the blip: "
        "do not push with the roll, go on easing.",
        DOWN + bump(18, ONE),
        1,
        (ONE,),
        1.0,
    ),
    Case(
        "a push for long",
        "The brake stood too much over its way down at a blip: "
        "do not push with the roll, go on easing.",
        DOWN + bump(9, ONE, 0.3),
        2,
        (ONE, TWO),
        1.0,
        limits={"excess": 1.0},
    ),
    Case(
        "up again",
        "The brake turned upward on the way down: let it only ever come off.",
        DOWN + bump(10, 0.8, 0.1) + bump(10, 1.4, 0.1) + bump(10, 2.0, 0.1),
        lean=None,
    ),
    Case(
        "swayed",
        "The brake was 10 points off a straight way down: as much in each moment as in the last.",
        DOWN - SWAYED,
        lean=None,
        limits={"ramp_worst": 6.0},
    ),
    Case(
        "swayed, by the whole of it",
        "The brake was about 7 points off a straight way down: "
        "as much in each moment as in the last.",
        DOWN - SWAYED,
        lean=None,
        limits={"ramp_error": 5.0},
    ),
    Case(
        "straight but too quick",
        "The brake was off too early, 23 points off a straight way down: "
        "come down as slowly as the tone.",
        lines((STARTS, 60.0), (STARTS + 1.5, 0.0)),
        lean=None,
    ),
    Case(
        "straight but too slow",
        "The brake was on too long, 16 points off a straight way down: "
        "come down as fast as the tone.",
        lines((STARTS, 60.0), (STARTS + 3.5, 0.0)),
        lean=None,
    ),
    Case(
        "down with the blip, and swayed after it",
        "The brake was 8 points off a straight way down: as much in each moment as in the last.",
        lines((ONE, 60.0), (ONE + 0.2, 30.0), (ONE + 0.5, 30.0), (ONE + 1.75, 0.0))
        + bump(-8, ONE + 1.0, 0.5),
        1,
        (ONE,),
        None,
        limits={"ramp_worst": 6.0},
    ),
    Case(
        "let go at once",
        "Too little of the way down was left to judge: ease off as the tone falls.",
        np.where(TIME < STARTS, 60.0, 0.0),
        lean=None,
    ),
    Case(
        "let go at once where only turns are limited",
        "Too little of the way down was left to judge: ease off as the tone falls.",
        np.where(TIME < STARTS, 60.0, 0.0),
        lean=None,
        limits={"reversals": 1.0},
    ),
    Case(
        "stuck half way",
        "The brake was on to the end, 30 points off a straight way down: "
        "come down to nothing with the tone.",
        np.maximum(DOWN, 30.0),
        lean=None,
    ),
    Case(
        "begun late",
        "The foot began late: ease off as soon as the tone starts to fall.",
        lines((1.0, 60.0), (1.0 + EASE, 0.0)),
        lean=None,
        limits={"release_start": 0.8},
    ),
    Case(
        "off too slowly",
        "The brake came off too slowly: come down as fast as the tone.",
        lines((STARTS, 60.0), (STARTS + 3.5, 0.0)),
        lean=1.0,
        limits={"release_time": 2.8},
    ),
    Case(
        "never off",
        "The brake was never let go: follow the tone all the way down.",
        np.maximum(DOWN, 6.0),
        lean=1.0,
        limits={"release_time": 2.8},
    ),
    Case(
        "a blip behind its click",
        "A blip came behind its click: have the foot ready to roll.",
        blips=1,
        at=(1.5,),
        lean=None,
        limits={"lateness": 0.4},
    ),
    Case(
        "a blip ahead of its click",
        "A blip came ahead of its click: wait for it, the tone is only for the brake.",
        blips=1,
        at=(0.5,),
        lean=None,
        limits={"lateness": 0.4},
    ),
    Case(
        "blips that leave too little between them",
        "The blips left too little of the way down to judge: make them shorter.",
        lines((0.15, 60.0), (1.65, 0.0)),
        1,
        (0.25,),
        None,
        limits={"ramp_worst": 12.0},
        lengths=(0.7,),
        blip={"ease": 1.0, "blip.longest": 1.0},
    ),
    Case(
        "held too heavy where that is limited",
        "The brake was held 3 points heavier than the target: "
        "feel for it before the dark, then keep that weight.",
        lines((STARTS, 63.0), (STARTS + EASE, 0.0)),
        lean=1.0,
        limits={"base_error": 2.0},
    ),
    Case(
        "a wide blip where that is limited",
        "The throttle stayed on too long: one short stab, in and out.",
        blips=1,
        at=(ONE,),
        lengths=(0.4,),
        limits={"width": 0.3},
    ),
    Case(
        "down with the throttle",
        "The brake fell and came back with the throttle: roll on the ball, keep it pushing.",
        DOWN + bump(-9, ONE),
        1,
        (ONE,),
        -1.0,
        limits={"coupling": 0.05},
    ),
)
