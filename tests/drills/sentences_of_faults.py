"""Blips that were not what was asked, with the sentence on each."""

from tests.drills.blip_case import Bump, Case

FAULTS = (
    Case(
        "a feather tap",
        "The blip was too light: stab deeper, and as short.",
        peak=18.0,
    ),
    Case(
        "a touch that is no blip yet",
        "The blip was too light: stab deeper, and as short.",
        peak=12.0,
    ),
    Case(
        "a pedal that jumped",
        "The throttle only jumped, quicker than any foot: if it does again, check its cable.",
        length=20,
    ),
    Case(
        "a stamp",
        "The blip was too big: stab less deep, and as short.",
        peak=90.0,
        blip={"most": 60.0},
    ),
    Case(
        "a long stab",
        "The throttle stayed on too long: one short stab, in and out.",
        length=950,
        blip={"longest": 0.4},
    ),
    Case(
        "a throttle that stays on for over a second",
        "The throttle stayed on too long: one short stab, in and out.",
        length=1500,
    ),
    Case(
        "a late blip",
        "The blip came too late: have the foot ready to roll at the cue.",
        reaction=1100,
    ),
    Case("no blip", "No blip came: at the cue, one short stab of the throttle.", peak=0.0),
    Case(
        "two blips",
        "More than one blip came: stab once, then leave the throttle alone.",
        second=500,
    ),
    Case(
        "a foot that grew light in the dark",
        "The brake left the target in the dark, on the light side: "
        "keep the weight you had when the light went.",
        (Bump(-22),),
        held=52.0,
    ),
    Case(
        "a foot that grew heavy in the dark",
        "The brake left the target in the dark, on the heavy side: "
        "keep the weight you had when the light went.",
        held=66.0,
    ),
    Case(
        "a brake let go before the cue",
        "The brake was let go in the dark: keep the weight on until the light comes back.",
        held=1.0,
    ),
    Case(
        "a brake let go after the blip",
        "The brake was let go after the blip: keep it on until the light comes back.",
        (Bump(-8),),
        let_go=500,
    ),
)
