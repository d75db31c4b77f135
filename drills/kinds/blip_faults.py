"""Sentences on the faults of a blip on a held brake, each with the cues for next time."""

from __future__ import annotations

from collections.abc import Mapping

from drills.coach import Said

SAME_PRESSURE = (
    "Feel the same pressure all through.",
    "Keep the pedal as heavy as before.",
    "Hold the brake, and add the throttle to it.",
)
"""Cues for a brake that fell with its blip."""
NO_HARDER = (
    "Let the throttle go in without pressing harder.",
    "Keep the pedal only as heavy as before.",
    "Feel the same weight, and no more.",
)
"""Cues for a brake that rose with its blip."""
COME_BACK = (
    "Come back to the same weight, no further.",
    "Feel for the weight you had, and stop there.",
    "Let the pedal return by itself.",
)
"""Cues for a brake that came back over what was held."""
STAY_ON = (
    "Never let the pedal come all the way up.",
    "Feel some weight on the pedal all through.",
    "Let the pedal push back all through.",
)
"""Cues for a brake that was lost altogether."""
BEFORE, DURING, AFTER = "before", "during", "after"
"""When the brake was lowest or highest, relative to its blip."""

DIPS: Mapping[str, Said] = {
    BEFORE: (
        (
            "The brake fell before the throttle moved.",
            "The brake was lightest before the blip.",
            "The dip came ahead of the throttle.",
        ),
        (
            "Keep the pedal heavy until the throttle moves.",
            "Feel the same weight right into the blip.",
            "Keep the pressure, then add the throttle to it.",
        ),
    ),
    DURING: (
        (
            "The brake fell during the blip.",
            "The throttle took brake with it.",
            "Brake was lost as the throttle moved.",
        ),
        SAME_PRESSURE,
    ),
    AFTER: (
        (
            "The brake fell after the blip.",
            "The dip came once the blip was over.",
            "The brake was lightest with the throttle closed again.",
        ),
        (
            "Keep the pedal heavy as the throttle closes.",
            "Feel the same weight after the blip as before.",
            "End the blip, keep the pressure.",
        ),
    ),
}
"""Dip of a blip, by when the brake was lowest."""
OFF: Mapping[str, Said] = {
    BEFORE: (
        (
            "The brake came off altogether before the throttle moved.",
            "Before the throttle moved, the brake was off.",
        ),
        STAY_ON,
    ),
    DURING: (
        (
            "The brake came off altogether during the blip.",
            "With the blip the brake was off.",
        ),
        STAY_ON,
    ),
    AFTER: (
        (
            "The brake came off altogether after the blip.",
            "After the blip the brake was off.",
        ),
        STAY_ON,
    ),
}
"""Dip down to nothing, by when the brake was lowest."""
EARLY: Said = (
    (
        "The brake left before the throttle.",
        "The brake eased off before the blip came.",
        "First the brake went, then the throttle came.",
    ),
    (
        "Keep the pedal heavy until the throttle answers.",
        "Feel the full weight as the throttle opens.",
        "Let the throttle open first, the brake unmoved.",
    ),
)
"""Early roll."""
EARLY_OFF: Said = (
    (
        "The brake left before the throttle, and came off altogether.",
        "The brake was going before the throttle, then gone.",
    ),
    STAY_ON,
)
"""Early roll down to nothing."""
BRACED: Said = (
    ("First a push, then the brake fell.", "The brake fell after a push."),
    ("Start the blip from the weight you hold.", "Keep the pedal quiet until the throttle."),
)
"""Dip that began with a push before the throttle."""
SURGES: Mapping[str, Said] = {
    "alone before": (
        ("The brake rose before the throttle moved.", "The brake was pressed ahead of the blip."),
        ("Wait for the cue at the same weight.", "Feel no push before the throttle."),
    ),
    "alone during": (
        ("The brake rose with the blip.", "The throttle pushed the brake up."),
        NO_HARDER,
    ),
    "alone after": (
        ("The brake rose after the blip.", "With the blip over, the brake grew heavier."),
        ("Stop at the weight you held.", "Let the throttle go without pressing the brake."),
    ),
    "before the dip": (
        ("The brake rose, then fell.", "A push came first, then a dip."),
        ("Start the blip from the weight you hold.", "Keep the pedal quiet until the throttle."),
    ),
    "after the dip": (
        (
            "The brake came back too heavy.",
            "It dipped, then went over what was held.",
            "On its way back the brake went too far.",
        ),
        COME_BACK,
    ),
}
"""Brake above what was held, by where its top was."""
REBOUNDS: Mapping[str, Said] = {
    "alone": (
        ("The brake went above what was held.", "For a moment the brake was too heavy."),
        NO_HARDER,
    ),
    "after the dip": (
        ("The brake overshot as it came back.", "The way back went past what was held."),
        COME_BACK,
    ),
}
"""Brake that came back over what was held, by whether it had dipped."""
OFFSETS: Mapping[str, Said] = {
    "light": (
        (
            "The brake ended lighter than it was held.",
            "It came to rest too light.",
            "The brake did not come all the way back.",
        ),
        (
            "Come back to the weight you held.",
            "Finish as heavy as you began.",
            "Feel for the old weight as the throttle closes.",
        ),
    ),
    "heavy": (
        (
            "The brake ended heavier than it was held.",
            "It came to rest too heavy.",
            "The brake stayed above what was held.",
        ),
        (
            "Finish only as heavy as you began.",
            "Let the extra weight go with the throttle.",
        ),
    ),
}
"""Brake that did not end where it was held, by its side."""
SETTLES: Mapping[str, Said] = {
    "never": (
        (
            "The brake never settled after the blip.",
            "The brake found no rest where it was held.",
        ),
        ("Come back once, and stay.", "Let the pedal go quiet right after the blip."),
    ),
    "late": (
        (
            "The brake was slow to settle.",
            "It took too long to settle at its weight.",
            "The brake came to rest late.",
        ),
        ("Come back once, and stay.", "Let the pedal go quiet right after the blip."),
    ),
}
"""Brake that settled late or never."""
COUPLINGS: Mapping[str, Said] = {
    "": (
        ("Brake and throttle could not be compared.", "There was too little to compare."),
        ("Make one clear blip.",),
    ),
    "light": (
        (
            "The brake fell and came back with the throttle.",
            "Brake went out as the throttle went in.",
        ),
        SAME_PRESSURE,
    ),
    "heavy": (
        (
            "The brake rose and came back with the throttle.",
            "Brake went in together with the throttle.",
        ),
        NO_HARDER,
    ),
}
"""Brake that moved with the throttle, by its side."""
BASES: Mapping[str, Said] = {
    "light": (
        ("The brake was lighter than asked in the dark.", "Until the cue it was held too light."),
        ("Remember its weight from before the dark.", "Find the weight, then keep it."),
    ),
    "heavy": (
        ("The brake was heavier than asked in the dark.", "Until the cue it was held too heavy."),
        ("Remember its weight from before the dark.", "Find the weight, then add nothing."),
    ),
}
"""Brake held beside its target before the blip, by its side."""
EARLY_AREAS: Mapping[str, tuple[str, ...]] = {
    "shortfall": (
        "The brake left early, and stayed light too long.",
        "It left before the throttle, and stayed light.",
    ),
    "extra_distance": (
        "The brake left early, which costs road.",
        "It left before the throttle: a longer stop.",
    ),
}
"""Early roll where not the dip decided but the brake that was missing, by the measure."""
FIXED: Mapping[str, Said] = {
    "mean_dip": (
        ("Taken together, the blips took too much brake.", "Blip for blip, the brake fell far."),
        SAME_PRESSURE,
    ),
    "shortfall": (
        ("The brake was light for too long.", "Too much brake went missing at the blip."),
        SAME_PRESSURE,
    ),
    "excess": (
        ("The brake was heavy for too long.", "Too much brake was added at the blip."),
        NO_HARDER,
    ),
    "extra_distance": (
        ("The lost brake would have cost too much road.", "On the road the stop would be longer."),
        SAME_PRESSURE,
    ),
    "swing": (
        ("The brake moved too far from least to most.", "The brake swung too widely."),
        ("Keep the pedal quiet under the blip.", "Feel one weight before, during and after."),
    ),
    "reaction": (
        ("The blip was slow to follow the cue.", "The cue waited too long for its blip."),
        ("Let the cue set off the throttle.", "Expect the cue at any moment."),
    ),
    "width": (
        ("The throttle stayed on too long.", "The blip lasted too long."),
        ("Make it short: in and out.", "One quick touch of throttle, then nothing."),
    ),
    "rise": (
        ("The throttle went in slowly.", "The throttle took its time going in."),
        ("Make the start of the blip sharp.", "Let the throttle jump to its height."),
    ),
    "fall": (
        ("The throttle came out slowly.", "The throttle lingered on its way out."),
        ("Make the end of the blip sharp.", "Let the throttle drop at once."),
    ),
}
"""Faults that are told in the same words whatever else the brake did, by the measure."""
