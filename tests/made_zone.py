"""A level of the kind zone, made for tests: a middling corner with three shifts."""

from drills.kinds import KINDS
from drills.level_file import parse_level

ZONE = parse_level(
    """
id = "a-zone"
title = "A corner"
purpose = "One braking zone for the tests."
kind = "zone"
peak = [70]
tolerance = 8
repetitions = 10
from = 230
to = 90
decel = 14
ease = 1.2
shifts = 3
foreperiod = { shift = 1.0, mean = 0.5, cut = 2.0 }

[limits]
dip = 15
lateness = 0.10
line_error = 8
peak_error = 12
off_at = 0.30
""",
    "a-zone",
    KINDS,
    "made",
)
"""Three shifts between 230 and 90 km/h, on a brake of 70 %."""
