"""Days of five minutes as their end shows them: a usual one, a full one and odd ones."""

from dataclasses import replace

from engine.five.day import Day, Part
from tests.engine.five.pictures import CLEAN, FIRST_DAY, LATER, MISSED, TODAY, VOID, steadiness
from tests.engine.progress.costs_shown import falling

PARTS = (
    Part("check-ups", (CLEAN, CLEAN, MISSED, CLEAN, CLEAN, VOID, MISSED), aim="for check-ups"),
    Part(
        "steadiness",
        (CLEAN, MISSED, CLEAN, CLEAN, CLEAN, CLEAN, MISSED, CLEAN),
        aim="for steadiness",
        is_staircase=True,
    ),
    Part("new", (MISSED, CLEAN, MISSED, MISSED, CLEAN, CLEAN) * 2, "Closer to the brake", "new"),
    Part("revision", (CLEAN, CLEAN, MISSED, CLEAN)),
    Part("nothing shown", (CLEAN, MISSED, CLEAN)),
)
DAY = Day(
    parts=PARTS,
    seconds=304.0,
    clean=21,
    counted=33,
    retained=("Hold it in the dark",),
    passed=("Closer to the brake",),
    beaten=("9 clean in a row, your best yet.",),
    steadiness=steadiness(12),
    streaks=LATER,
    due_tomorrow=2,
    all_due=28,
    tomorrow="2 of 28 check-ups, steadiness, then Closer to the brake",
)
SECOND_YEAR = (
    *PARTS[:2],
    Part("for the early roll", (MISSED, CLEAN) * 5, aim="for the early roll"),
    Part("personal limit", (CLEAN,) * 8, "Closer to the brake", "for a personal limit"),
    *PARTS[3:],
)
"""Parts of a session in which nothing is left to learn, with a fault worked on."""
FULL_DAY = replace(
    DAY,
    counted=39,
    parts=(*PARTS, Part("new", (MISSED,) * 6, "A run of four at the last moment")),
    retained=("Hold it in the dark", "The first blip of them all", "Closer to the brake"),
    passed=("Closer to the brake", "A run of four at the last moment"),
    beaten=(
        "9 clean in a row, your best yet.",
        "Best score yet: 71 at Closer to the brake.",
    ),
    is_longest=True,
    cost=falling(TODAY, 6, 6.0, 6.0),
)
SHORT_DAY = replace(
    DAY,
    parts=(Part("new", (MISSED, VOID), "First blip"),),
    seconds=41.0,
    clean=0,
    counted=1,
    retained=(),
    passed=(),
    beaten=(),
    steadiness=None,
    streaks=FIRST_DAY,
    due_tomorrow=0,
    all_due=0,
    tomorrow="",
    is_early=True,
    blips=12,
)
NOTHING = replace(SHORT_DAY, parts=(), seconds=0.0, counted=0)
MIDNIGHT = replace(DAY, past_midnight=True)
