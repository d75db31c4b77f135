"""The end of five minutes: the last three with nothing shown, and on time, whatever day it is."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta

from drills.trace import Pedal
from engine.five.planner import DARK, Planned, plan
from engine.five.player_state import PlayerState
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.practice.results import Purpose, Session, SessionKind

DAYS = 50
LEVELS, BAND = load_levels([SHIPPED]), load_band()
AFTER_LONG_HOLDS = ("blip-2-closer", "blip-3-good", "quiet-guess")
ON_TIME = 15.0  # s
SELDOM = 0.05
"""Share of days that may end otherwise: a level passed meanwhile may make one of the last longer.

Of 600 days it was 2 %; with that more than 7 of 150 come in 8 of 1000 runs.
"""


def planned_days() -> Iterator[list[Planned]]:
    """Five minutes of some days at each of some places on the ladder, played clean."""
    ids = [level.id for level in LEVELS]
    for learned in AFTER_LONG_HOLDS:
        done = frozenset(ids[: ids.index(learned)])
        for number in range(DAYS):
            at = datetime(2024, 3, 1, 18, tzinfo=UTC) + timedelta(days=number)
            pedals = frozenset({Pedal.BRAKE, Pedal.THROTTLE})
            player = PlayerState(at.date(), LEVELS, done, band=BAND, pedals=pedals)
            yield plan(player, Session(1, SessionKind.FIVE, at, 5.0, at.date().toordinal()))


def ends_as_meant(planned: list[Planned]) -> bool:
    """Whether the last three, and no more, come with nothing shown, and all takes its time."""
    pace = PlayerState(date(2024, 3, 1), LEVELS).pace
    dark = [one.why is Purpose.DARK for one in planned]
    lasts = sum(pace.of(one.level) for one in planned)
    return all(dark[-DARK:]) and sum(dark) == DARK and abs(lasts - 300) <= ON_TIME


def test_nearly_every_day_ends_on_time_with_three_in_the_dark() -> None:
    days = list(planned_days())

    missed = sum(not ends_as_meant(planned) for planned in days)

    assert missed / len(days) <= SELDOM
