"""Ways down as a person might come, and the sentence that is said of each."""

import numpy as np

from drills.score import Reason
from tests.drills.kinds.made import TIME, bump, lines
from tests.drills.kinds.trail_case import DOWN, EASE, STARTS, Case

ONE, TWO = 1.2, 2.0
"""s from the cue, onsets of a first and a second blip."""
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
        "Straight down. The same again.",
        reason=CLEAN,
    ),
    Case(
        "straight down, and not to nothing",
        "The way down was straight enough. Take off as much in each moment.",
        np.maximum(DOWN, 5.5),
        limits={"ramp_worst": 12.0},
        reason=CLEAN,
    ),
    Case(
        "bowed as far as it may be",
        "The way down was straight enough. Take off as much in each moment.",
        DOWN + 0.8 * BOWED,
        reason=CLEAN,
    ),
    Case(
        "let go at once where only the start is limited",
        "The brake began to ease in time. Ease off as the tone begins to fall.",
        np.where(TIME < STARTS, 60.0, 0.0),
        reason=CLEAN,
        limits={"release_start": 0.8},
    ),
    Case(
        "with a blip that leaves no mark",
        "The blips left the way down as it was. The same again.",
        blips=1,
        at=(ONE,),
        reason=CLEAN,
    ),
    Case(
        "with two that leave none",
        "The blips left the way down as it was. The same again.",
        blips=2,
        at=(ONE, TWO),
        reason=CLEAN,
    ),
    Case(
        "with a small dip",
        "The brake fell with a blip, not too far. Keep the weight running down as before.",
        DOWN + bump(-9, ONE),
        1,
        (ONE,),
        reason=CLEAN,
    ),
    Case(
        "with a dip as deep as it may be",
        "The first blip took more than the second. Ease as smoothly under the first one.",
        DOWN + bump(-14, ONE),
        2,
        (ONE, TWO),
        reason=CLEAN,
        limits={"dip": 15.0},
    ),
    Case(
        "with a small push",
        "The brake rose with a blip, not too far. Blip without pressing, and go on easing.",
        DOWN + bump(9, ONE),
        1,
        (ONE,),
        reason=CLEAN,
    ),
    Case(
        "a limit on the dip where no blip is asked means nothing",
        "Straight down. The same again.",
        limits={"dip": 10.0, "lateness": 0.2, "ramp_worst": 12.0},
        reason=CLEAN,
    ),
    Case(
        "a dip",
        "The brake fell under its way down at a blip. Keep the weight running down as before.",
        DOWN + bump(-18, ONE),
        1,
        (ONE,),
        -1.0,
    ),
    Case(
        "a dip at the second of two",
        "The brake fell under its way down at the second blip. Keep "
        "the weight running down as before.",
        DOWN + bump(-14, TWO),
        2,
        (ONE, TWO),
        -1.0,
    ),
    Case(
        "a foot that rolls before its throttle",
        "The brake left before the throttle. Ease at the same pace right into the blip.",
        DOWN + bump(-18, ONE - 0.25, 0.5),
        1,
        (ONE,),
        -1.0,
    ),
    Case(
        "much on the whole",
        "On average the blips took too much brake. Keep the weight running down as before.",
        DOWN + bump(-12, ONE) + bump(-12, TWO),
        2,
        (ONE, TWO),
        -1.0,
        limits={"mean_dip": 10.0},
    ),
    Case(
        "light for long",
        "The brake was under its way down too long. Keep the weight running down as before.",
        DOWN + bump(-9, ONE, 0.3),
        1,
        (ONE,),
        -1.0,
        limits={"shortfall": 1.0},
    ),
    Case(
        "a dip that costs road",
        "The lost brake would have cost too much road. Keep the weight running down as before.",
        DOWN + bump(-9, ONE, 0.3),
        2,
        (ONE, TWO),
        -1.0,
        limits={"extra_distance": 0.5},
    ),
    Case(
        "a push",
        "The brake rose with a blip. Blip without pressing, and go on easing.",
        DOWN + bump(18, ONE),
        1,
        (ONE,),
        1.0,
    ),
    Case(
        "a push for long",
        "The brake was over its way down too long. Blip without pressing, and go on easing.",
        DOWN + bump(9, ONE, 0.3),
        2,
        (ONE, TWO),
        1.0,
        limits={"excess": 1.0},
    ),
    Case(
        "up again",
        "On its way down the brake turned upward. Let the weight only ever leave.",
        DOWN + bump(10, 0.8, 0.1) + bump(10, 1.4, 0.1) + bump(10, 2.0, 0.1),
        lean=None,
    ),
    Case(
        "swayed",
        "The way down was not straight. Take off as much in each moment.",
        DOWN - SWAYED,
        lean=None,
        limits={"ramp_worst": 6.0},
    ),
    Case(
        "swayed, by the whole of it",
        "On average it was not straight. Take off as much in each moment.",
        DOWN - SWAYED,
        lean=None,
        limits={"ramp_error": 5.0},
    ),
    Case(
        "straight but too quick",
        "The brake was off too early. Come down as slowly as the tone.",
        lines((STARTS, 60.0), (STARTS + 1.5, 0.0)),
        lean=None,
    ),
    Case(
        "straight but too slow",
        "The brake was on too long. Come down as fast as the tone.",
        lines((STARTS, 60.0), (STARTS + 3.5, 0.0)),
        lean=None,
    ),
    Case(
        "down with the blip, and swayed after it",
        "The way down was not straight. Take off as much in each moment.",
        lines((ONE, 60.0), (ONE + 0.2, 30.0), (ONE + 0.5, 30.0), (ONE + 1.75, 0.0))
        + bump(-8, ONE + 1.0, 0.5),
        1,
        (ONE,),
        None,
        limits={"ramp_worst": 6.0},
    ),
    Case(
        "let go at once",
        "Too little of the way down was left to judge. Ease off as the tone falls.",
        np.where(TIME < STARTS, 60.0, 0.0),
        lean=None,
    ),
    Case(
        "let go at once where only turns are limited",
        "Too short a way down to follow. Ease off as the tone falls.",
        np.where(TIME < STARTS, 60.0, 0.0),
        lean=None,
        limits={"reversals": 1.0},
    ),
    Case(
        "stuck half way",
        "The brake stayed on to the end. Come down with the tone.",
        np.maximum(DOWN, 30.0),
        lean=None,
    ),
    Case(
        "begun late",
        "The brake began to ease late. Ease off as the tone begins to fall.",
        lines((1.0, 60.0), (1.0 + EASE, 0.0)),
        lean=None,
        limits={"release_start": 0.8},
    ),
    Case(
        "off too slowly",
        "The brake came off too slowly. Come down with the tone.",
        lines((STARTS, 60.0), (STARTS + 3.5, 0.0)),
        lean=1.0,
        limits={"release_time": 2.8},
    ),
    Case(
        "never off",
        "The brake never came all the way off. Come down with the tone.",
        np.maximum(DOWN, 6.0),
        lean=1.0,
        limits={"release_time": 2.8},
    ),
    Case(
        "a blip behind its click",
        "A blip came late after its click. Let the click set off the throttle.",
        blips=1,
        at=(1.5,),
        lean=None,
        limits={"lateness": 0.4},
    ),
    Case(
        "a blip ahead of its click",
        "A blip came before its click. Wait for the click, and only ease.",
        blips=1,
        at=(0.5,),
        lean=None,
        limits={"lateness": 0.4},
    ),
    Case(
        "blips that leave too little between them",
        "The blips left too little way down to judge. Make the blips shorter.",
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
        "The brake was heavier than asked in the dark. Remember its weight from before the dark.",
        lines((STARTS, 63.0), (STARTS + EASE, 0.0)),
        lean=1.0,
        limits={"base_error": 2.0},
    ),
    Case(
        "a wide blip where that is limited",
        "The throttle stayed on too long. Make it short: in and out.",
        blips=1,
        at=(ONE,),
        lengths=(0.4,),
        limits={"width": 0.3},
    ),
    Case(
        "down with the throttle",
        "The brake fell and came back with the throttle. Feel the same pressure all through.",
        DOWN + bump(-9, ONE),
        1,
        (ONE,),
        -1.0,
        limits={"coupling": 0.05},
    ),
)
