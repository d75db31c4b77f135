"""Blips that were not what was asked, with the sentence on each."""

from tests.drills.blip_case import Bump, Case

FAULTS = (
    Case(
        "a feather tap",
        "The blip was too light. More throttle, and as short.",
        peak=18.0,
    ),
    Case(
        "a touch that is no blip yet",
        "The blip was too light. More throttle, and as short.",
        peak=12.0,
    ),
    Case(
        "a pedal that jumped",
        "The throttle jumped faster than any foot. If it does so again, check its cable.",
        length=20,
    ),
    Case(
        "a stamp",
        "The blip was too big. Less throttle, and as short.",
        peak=90.0,
        blip={"most": 60.0},
    ),
    Case(
        "a long stab",
        "The throttle stayed on too long. Make it short: in and out.",
        length=950,
        blip={"longest": 0.4},
    ),
    Case(
        "a throttle that stays on for over a second",
        "The throttle stayed on too long. Make it short: in and out.",
        length=1500,
    ),
    Case(
        "a late blip",
        "The blip came too late. Let the cue set off the throttle.",
        reaction=1100,
    ),
    Case("no blip", "No blip came. At the cue, one short blip.", peak=0.0),
    Case(
        "two blips",
        "More than one blip came. One blip, then leave the throttle shut.",
        second=500,
    ),
    Case(
        "a foot that grew light in the dark",
        "In the dark the brake grew too light. Keep the weight you had in the light.",
        (Bump(-22),),
        held=52.0,
    ),
    Case(
        "a foot that grew heavy in the dark",
        "In the dark the brake grew too heavy. Keep the weight you had in the light.",
        held=66.0,
    ),
    Case(
        "a brake let go before the cue",
        "The brake was let go in the dark. Keep the weight on until the light returns.",
        held=1.0,
    ),
    Case(
        "a brake let go after the blip",
        "The brake was let go after the blip. Keep it on until the light returns.",
        (Bump(-8),),
        let_go=500,
    ),
)
