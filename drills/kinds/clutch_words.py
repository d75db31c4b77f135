"""What is said of the clutch in a downshift."""

from __future__ import annotations

from collections.abc import Mapping

from drills.coach import Said
from drills.kinds.clean_words import THE_SAME
from drills.score import Reason

DOWN_LATE: Said = (
    ("The clutch was slow to go down.", "The cue waited too long for the clutch."),
    ("Let the cue send the clutch down.", "Rest on the clutch, and expect the cue."),
)
"""A clutch that went down late."""
UP_LATE: Mapping[str, Said] = {
    "down": (
        (
            "The clutch was up late, as it went down late.",
            "The whole shift was late from its start.",
        ),
        ("Let the cue send the clutch down.", "Rest on the clutch, and expect the cue."),
    ),
    "blip": (
        (
            "The clutch was up late, as the blip was slow.",
            "Between clutch and blip too much time went by.",
        ),
        ("Clutch down and blip: one move.", "Let the clutch set off the throttle."),
    ),
    "throttle": (
        (
            "The clutch was up late, as the throttle stayed on.",
            "The long throttle made the shift late.",
        ),
        ("Make it short: in and out.", "One quick touch of throttle, then up."),
    ),
    "up": (
        (
            "The clutch stayed down after the blip.",
            "After the blip the clutch was slow to come up.",
        ),
        ("Let it up as the throttle closes.", "Blip over, clutch up."),
    ),
}
"""A clutch that came up late, by the part of the shift that took too long."""
IN_TIME: Mapping[str, Said] = {
    "clutch_down": (("The clutch went down in time.", "The cue found the clutch ready."), THE_SAME),
    "clutch_up": (
        ("The shift was done in time.", "The clutch was up again in time."),
        ("Let one part run into the next.", "The same, a shade quicker."),
    ),
}
"""A clean shift whose time came nearest its limit, by the measure."""
SHORTCOMINGS: Mapping[Reason, Said] = {
    Reason.NO_CLUTCH: (
        ("The clutch was not down.", "There was a blip, but no clutch."),
        ("Clutch first, past its middle, then blip.",),
    ),
    Reason.BLIP_FIRST: (
        ("The blip came before the clutch was down.", "The throttle was ahead of the clutch."),
        ("Clutch first, then the blip.", "Let the clutch set off the throttle."),
    ),
    Reason.CLUTCH_FIRST: (
        ("The clutch came up before the blip was over.", "The blip outlasted the clutch."),
        ("Blip over, then clutch up.", "Keep it down until the throttle is closed."),
    ),
    Reason.CLUTCH_STAYED: (
        ("The clutch did not come up.", "After the blip the clutch never came up."),
        ("Let it all the way up after the blip.",),
    ),
}
"""Shifts in which something asked was not done, by the outcome."""
