"""Sentences on easing off, with blips or without, each with the cues for next time."""

from __future__ import annotations

from collections.abc import Mapping

from drills.coach import Said
from drills.kinds.clean_words import AS_HEAVY, THE_SAME
from drills.score import Reason

GO_ON = (
    "Keep the weight running down as before.",
    "Feel one smooth way down under the blip.",
    "Ease off as if no blip came.",
)
"""Cues for a brake that left its way down at a blip."""
WITH_THE_TONE = (
    "Come down with the tone.",
    "Let the tone take the weight away.",
)
"""Cues for a brake that did not come down as the tone did."""

SHORTCOMINGS: Mapping[Reason, Said] = {
    Reason.NOT_EASED: (
        ("The brake was not eased off.", "The tone fell, and the brake stayed."),
        WITH_THE_TONE,
    ),
    Reason.NO_BLIP: (
        ("No blip came.", "The click went by without a blip."),
        ("At the click, one short blip on the way down.", "Let the click set off the throttle."),
    ),
    Reason.FEW_BLIPS: (
        ("There were too few blips.", "A click went by without its blip."),
        ("One blip to each click.", "Let each click set off the throttle."),
    ),
    Reason.EXTRA_BLIP: (
        ("There were too many blips.", "A blip came without a click."),
        ("One blip to each click, no more.", "Between clicks, keep the throttle shut."),
    ),
    Reason.CUT_SHORT: (
        ("The brake was off too soon for its blip.", "When the blip came, the brake was gone."),
        ("Blip at the click, with brake to spare.", "Let the weight outlast the blip."),
    ),
    Reason.NOT_SCORED: (
        ("A blip could not be measured.", "There was too little around a blip to measure it."),
        ("One short blip to each click, time between them.",),
    ),
    Reason.LET_GO: (
        ("The brake was let go in the dark.", "Before the tone fell, the brake was off."),
        ("Keep the weight on until the tone falls.", "Feel the pedal until the tone falls."),
    ),
    Reason.LIGHT: (
        ("A blip was too light.", "One blip had too little throttle."),
        ("More throttle, and as short.", "Let the throttle go deeper."),
    ),
    Reason.HEAVY: (
        ("A blip was too big.", "One blip had too much throttle."),
        ("Less throttle, and as short.", "Let the throttle stay shallow."),
    ),
    Reason.LONG: (
        ("The throttle stayed on too long.", "One blip was too long."),
        ("Make it short: in and out.", "One quick touch, then nothing."),
    ),
}
"""Easing off in which something asked was not done, by the outcome."""
UNASKED: Said = (
    ("A blip came where none was asked.", "There was a blip on the way down."),
    ("Leave the throttle shut on the way down.",),
)
"""A blip on a way down without blips."""
CAME_OFF: Said = (
    ("The brake came off altogether at a blip.", "With a blip the brake was gone."),
    ("Let some weight outlast every blip.", "Feel the pedal under you all the way."),
)
"""A brake that was lost at a blip and pressed again."""

EARLY: Said = (
    (
        "The brake left before the throttle.",
        "The brake dropped before the blip came.",
        "First the brake went, then the throttle came.",
    ),
    (
        "Ease at the same pace right into the blip.",
        "Let the throttle open first, the way unbroken.",
        "Keep the weight until the throttle answers.",
    ),
)
"""Early roll on the way down."""
BRACED: Said = (
    (
        "First a push, then the brake fell under its way down.",
        "The brake fell under its way down after a push.",
    ),
    ("Blip without pressing, and go on easing.", *GO_ON),
)
"""Dip on the way down that began with a push."""
FAULTS: Mapping[str, Said] = {
    "mean_dip": (
        ("On average the blips took too much brake.", "Blip for blip, the way down sagged."),
        GO_ON,
    ),
    "shortfall": (
        ("The brake was under its way down too long.", "Too much brake went missing at the blips."),
        GO_ON,
    ),
    "extra_distance": (
        ("The lost brake would have cost too much road.", "On the road the stop would be longer."),
        GO_ON,
    ),
    "surge": (
        ("The brake rose with a blip.", "A blip pushed the brake up.", "The way down bulged."),
        ("Blip without pressing, and go on easing.", *GO_ON),
    ),
    "excess": (
        ("The brake was over its way down too long.", "Too much brake was added at the blips."),
        ("Blip without pressing, and go on easing.", *GO_ON),
    ),
    "reversals": (
        ("On its way down the brake turned upward.", "The brake rose again on its way down."),
        ("Let the weight only ever leave.", "Feel one smooth way down."),
    ),
    "too late": (
        ("A blip came late after its click.", "The click waited too long for its blip."),
        ("Let the click set off the throttle.", "Expect the click on the way down."),
    ),
    "too soon": (
        ("A blip came before its click.", "A blip was ahead of its click."),
        ("Wait for the click, and only ease.", "Let the click set off the throttle."),
    ),
    "release_start": (
        ("The brake began to ease late.", "The tone fell before the brake did."),
        ("Ease off as the tone begins to fall.", "Let the tone take the weight away."),
    ),
    "never off": (
        ("The brake never came all the way off.", "At the end some brake was left."),
        WITH_THE_TONE,
    ),
    "release_time": (
        ("The brake came off too slowly.", "The way down took too long."),
        WITH_THE_TONE,
    ),
    "on to the end": (
        ("The brake stayed on to the end.", "The tone was gone before the brake."),
        WITH_THE_TONE,
    ),
    "off too early": (
        ("The brake was off too early.", "The brake came down faster than the tone."),
        ("Come down as slowly as the tone.", "Spread the weight over the whole tone."),
    ),
    "on too long": (
        ("The brake was on too long.", "The brake came down slower than the tone."),
        ("Come down as fast as the tone.", "Let the tone take the weight away."),
    ),
    "not straight": (
        ("The way down was not straight.", "The brake came down unevenly."),
        ("Take off as much in each moment.", "Feel one smooth way down."),
    ),
    "unjudged": (
        ("Too little of the way down was left to judge.", "The way down was too short to judge."),
        ("Ease off as the tone falls.", "Come down as slowly as the tone."),
    ),
    "unjudged with blips": (
        ("The blips left too little way down to judge.", "Around the blips no way was left."),
        ("Make the blips shorter.", "Ease off over the whole tone."),
    ),
}
"""Faults of an easing off."""
ON_AVERAGE: Mapping[str, tuple[str, ...]] = {
    "on to the end": ("To the very end some brake was on.", "The brake outlasted the tone."),
    "off too early": ("The brake was gone before the tone.", "All in all it came down too fast."),
    "on too long": ("The brake lagged behind the tone.", "All in all it came down too slowly."),
    "not straight": ("On average it was not straight.", "All in all it came down unevenly."),
    "unjudged": ("Too short a way down to average.", "There was too little way to average."),
    "unjudged with blips": (
        "The blips left too little to average.",
        "Between the blips little way was left.",
    ),
}
"""Sentences on the same faults where the average decided, by their name."""
UPWARD: Mapping[str, tuple[str, ...]] = {
    "unjudged": ("Too short a way down to follow.", "There was too little way to follow."),
    "unjudged with blips": (
        "The blips left too little to follow.",
        "Around the blips little way was left.",
    ),
}
"""Sentences on a way down too short to count its turns, by the name of the fault."""

CLEAN: Mapping[str, Said] = {
    "mean_dip": (
        ("On average the blips took little enough.", "Blip for blip, the way down held."),
        AS_HEAVY,
    ),
    "hardly dipped": (
        ("The blips left the way down as it was.", "Hardly a dip on the way down."),
        THE_SAME,
    ),
    "dipped": (
        ("The brake fell with a blip, not too far.", "A blip took some brake, inside its limit."),
        GO_ON,
    ),
    "early": (
        ("Some brake left before the throttle came.", "The brake dropped a bit ahead of its blip."),
        ("Ease at the same pace right into the blip.", "Keep the weight until the throttle."),
    ),
    "hardly rose": (
        ("Hardly a bulge on the way down.", "The blips added next to no brake."),
        THE_SAME,
    ),
    "surge": (
        ("The brake rose with a blip, not too far.", "A blip added some brake, inside its limit."),
        ("Blip without pressing, and go on easing.", "Ease off as if no blip came."),
    ),
    "shortfall": (
        ("The brake was not under its way for long.", "Little enough brake went missing."),
        GO_ON,
    ),
    "extra_distance": (
        ("It would have cost little enough road.", "The stop stayed short enough."),
        GO_ON,
    ),
    "excess": (
        ("The brake was not over its way for long.", "Little enough brake was added."),
        GO_ON,
    ),
    "ramp_worst": (
        ("The way down was straight enough.", "At its farthest it was near enough to straight."),
        ("Take off as much in each moment.", "Feel one smooth way down."),
    ),
    "ramp_error": (
        ("On average straight enough, all the way.", "All in all, near enough to straight."),
        ("Take off as much in each moment.", "Feel one smooth way down."),
    ),
    "straight": (
        ("Straight down.", "The brake came down in a straight line."),
        THE_SAME,
    ),
    "straight on average": (
        ("On average, straight down.", "All in all, a straight line down."),
        THE_SAME,
    ),
    "never up": (
        ("The brake only ever came down.", "Down all the way, never up."),
        THE_SAME,
    ),
    "reversals": (
        ("The brake turned upward, but not too often.", "Down, with no more turns than allowed."),
        ("Let the weight only ever leave.", "Feel one smooth way down."),
    ),
    "lateness": (
        ("Every blip was near enough to its click.", "The clicks had their blips in time."),
        ("Let the click set off the throttle.", "Expect the click on the way down."),
    ),
    "release_start": (
        ("The brake began to ease in time.", "The tone fell, and the brake soon after."),
        ("Ease off as the tone begins to fall.", "Let the tone take the weight away."),
    ),
    "release_time": (
        ("The brake was off in time.", "The way down was quick enough."),
        WITH_THE_TONE,
    ),
}
"""Clean ways down, by the measure nearest its limit."""
