"""Sentences on a braking zone that was not clean, each with the cues for next time."""

from __future__ import annotations

from collections.abc import Mapping

from drills.coach import Said
from drills.kinds import clutch_words, trail_faults
from drills.score import Reason

GO_ON = (
    "Keep the weight on its line through the blip.",
    "Feel no change in the brake as the throttle moves.",
    "Brake as if no blip came.",
)
"""Cues for a brake that left its line at a blip."""
NO_PUSH = ("Blip without pressing the brake.", *GO_ON)
"""Cues for a brake that rose with a blip."""
SHORTER = ("Make the blips shorter.", "Ease off over the whole tone.")
"""Cues for blips that left too little of the line."""
ONE_EACH = ("One blip to each click.", "Let each click set off the throttle.")
"""Cues for blips that were missing."""
WITH_THE_TONE = trail_faults.WITH_THE_TONE
"""Cues for a brake that did not come down as the tone did."""
COUNT = ("Keep counting: brake on four.", "Let the knocks carry you to the point.")
"""Cues for a brake that missed the braking point."""
AT_THE_KNOCK = ("Be off as the last knock comes.", "Let the tone take the last weight away.")
"""Cues for a brake that was on beyond turn-in."""
EARLY = ("Keep the weight until the throttle answers.", "Let the throttle open first.")
"""Cues for a brake that left before its blip's throttle."""

BEFORE_THE_KNOCKS: Said = (
    ("A pedal moved before the first knock.", "Something was pressed before the first knock."),
    ("Rest on the brake through all three knocks.", "Brake on the fourth beat."),
)
"""A pedal that did not wait for the count-in."""
SHORTCOMINGS: Mapping[Reason, Said] = {
    Reason.NOT_PRESSED: (
        ("The brake was not pressed.", "The braking point went by without the brake."),
        COUNT,
    ),
    Reason.LET_GO: (
        ("The brake was let go before turn-in.", "Long before turn-in the brake was off."),
        ("Keep some weight on until the last knock.", "Feel the pedal all the way to turn-in."),
    ),
    Reason.NO_BLIP: (
        ("No blip came.", "The clicks went by without a blip."),
        ONE_EACH,
    ),
    Reason.FEW_BLIPS: (
        ("There were too few blips.", "A click went by without its blip."),
        ONE_EACH,
    ),
    Reason.EXTRA_BLIP: (
        ("There were too many blips.", "A blip came without a click."),
        ("One blip to each click, no more.", "Between clicks, keep the throttle shut."),
    ),
    Reason.OFF_BEAT: (
        ("A blip was far from its click.", "A blip did not answer its click."),
        ("One blip to each click, as it comes.", "Let each click set off the throttle."),
    ),
    Reason.CUT_SHORT: (
        ("The brake was off too soon for its blip.", "When the blip came, the brake was gone."),
        ("Blip at the click, with brake to spare.", "Let the weight outlast the last blip."),
    ),
    Reason.NOT_SCORED: (
        ("A blip could not be measured.", "There was too little around a blip to measure it."),
        ("One short blip to each click, time between them.",),
    ),
    **{
        reason: trail_faults.SHORTCOMINGS[reason]
        for reason in (Reason.LIGHT, Reason.HEAVY, Reason.LONG)
    },
    **clutch_words.SHORTCOMINGS,
}
"""Zones in which something asked was not done, by the outcome."""
FAULTS: Mapping[str, Said] = {
    "braked late": (
        ("The brake came on late.", "The brake came too late for the braking point."),
        COUNT,
    ),
    "braked soon": (
        ("The brake came on too soon.", "The brake was ahead of the braking point."),
        ("Let the braking point come to you.", "Count all the knocks, then brake."),
    ),
    "slow to the peak": (
        ("The brake went on slowly.", "The squeeze was slow on its way to the peak."),
        ("One firm squeeze, no searching.", "Go straight to the peak."),
    ),
    "never at the peak": (
        ("The brake stayed short of the peak.", "The whole squeeze stayed under the peak."),
        ("Push on until the full weight is there.", "Go straight to the peak."),
    ),
    "short of the peak": (
        ("The squeeze was short of the peak.", "At its highest the brake was too light."),
        ("Push on until the full weight is there.", "Let the first push be the whole weight."),
    ),
    "past the peak": (
        ("The brake went past the peak.", "At its highest the brake was too heavy."),
        ("Stop as the weight of the peak arrives.", "As firmly, but no further."),
    ),
    "under the line": (
        ("The brake fell under its line.", "The brake was lighter than its line."),
        ("Ease off only as the tone falls.", "Spread the weight over the whole tone."),
    ),
    "down too soon": (
        ("The brake came down too soon, under its line.", "The brake fell ahead of the tone."),
        ("Spread the weight over the whole tone.", "Come down only as the tone does."),
    ),
    "over the line": (
        ("The brake was over its line.", "The brake was heavier than its line."),
        WITH_THE_TONE,
    ),
    "down late": (
        ("The brake came down late, over its line.", "The brake stayed on behind the tone."),
        WITH_THE_TONE,
    ),
    "strayed under": (
        ("The brake strayed, under its line most.", "Farthest off, the brake was too light."),
        ("Come down only as the tone does.", "Feel one smooth way down."),
    ),
    "strayed over": (
        ("The brake strayed, over its line most.", "Farthest off, the brake was too heavy."),
        WITH_THE_TONE,
    ),
    "line_worst unjudged": (
        ("The blips left too little line to judge.", "Around the blips no line was left."),
        SHORTER,
    ),
    "line_error unjudged": (
        ("The blips left too little line to average.", "Between the blips little line was left."),
        SHORTER,
    ),
    "reversals unjudged": (
        ("The blips left too little line to follow.", "Around the blips little line was left."),
        SHORTER,
    ),
    "line_lag": (
        ("The brake came down behind the tone.", "The tone was falling, and the brake waited."),
        WITH_THE_TONE,
    ),
    "reversals": (
        ("On its way down the brake turned upward.", "The way down had turns upward."),
        ("Let the weight only ever leave.", "Feel one smooth way down."),
    ),
    "mean_dip": (
        ("On average the blips took too much brake.", "Blip for blip, the brake sagged."),
        GO_ON,
    ),
    "shortfall": (
        ("Too much brake went missing at the blips.", "At the blips brake was missing too long."),
        GO_ON,
    ),
    "extra_distance": (
        ("The lost brake would have cost too much road.", "These dips would make a longer stop."),
        GO_ON,
    ),
    "surge": (
        ("The brake rose with a blip.", "A blip pushed the brake up."),
        NO_PUSH,
    ),
    "excess": (
        ("At the blips the brake was heavy for too long.", "The brake rose too much with blips."),
        NO_PUSH,
    ),
    "off early": (
        ("The brake was off before turn-in.", "The brake was gone before the last knock."),
        ("Keep the last weight until the knock.", "Take a little brake all the way to turn-in."),
    ),
    "off late": (
        ("The brake was off late.", "The brake came off too late for turn-in."),
        AT_THE_KNOCK,
    ),
    "never off": (
        ("The brake never came all the way off.", "At turn-in the brake was too heavy to steer."),
        AT_THE_KNOCK,
    ),
}
"""Faults of a braking zone that are told without the place of a blip."""
