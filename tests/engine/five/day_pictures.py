"""Ends of days by what went better in them, as they come up and as they move."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from drills.deviation import Deviation
from drills.level import Level
from drills.trace import nanoseconds
from engine.five.day import BestScore, DayViews, NewLimit
from engine.five.day_end import DayEnd
from engine.kit.motion import LONG
from engine.ladder.ladder import ladder_stages
from engine.ladder.rise import Climb, rise_between
from engine.practice.passes import next_level
from engine.practice.steadiness import Steadiness, SteadinessStep
from engine.stage.actions import Action
from tests.engine.five.made_days import DAY, FULL_DAY, MIDNIGHT, NOTHING, SECOND_YEAR, SHORT_DAY
from tests.engine.five.pictures import TODAY, retentions
from tests.engine.ladder.stages import made_levels

PLAIN = replace(DAY, retained=(), passed=(), beaten=())
"""A day on which nothing went better than ever."""
EARLIER = tuple(
    (TODAY - timedelta(days=ago), 20 + ago % 7 * 3) for ago in range(40, 0, -1) if ago % 5 % 3
)
HILL = (*EARLIER, (TODAY, 33))
"""Days practised with their repetitions, up to today."""
MANY_DAYS = tuple((TODAY - timedelta(days=ago), 30) for ago in range(900, -1, -1) if ago % 7)
"""Days practised in some years."""


def step(first: float = 15.5, now: float = 5.1) -> SteadinessStep:
    """Step from a first steadiness in spring to today's."""
    return SteadinessStep(
        Steadiness(first, first - 3, first + 4, 6, date(2024, 3, 7)),
        Steadiness(now, now - 1.4, now + 1.9, 6, TODAY),
    )


def views(
    levels: Sequence[Level] = (),
    passed: int = 5,
    kept: int = 0,
    before: int | None = None,
    **changes: Any,
) -> DayViews:
    """What the pictures of a day are drawn from: so many levels passed, `before` before it."""
    levels = levels or made_levels()
    climbs = []
    for count in (passed if before is None else before, passed):
        done = frozenset(level.id for level in levels[:count])
        stages = ladder_stages(levels, done, retention=retentions(levels, kept))
        climbs.append(Climb(stages, next_level(levels, done)))
    earlier, now = climbs
    found = DayViews(TODAY, HILL, now.stages, now.following, rise_between(earlier, now))
    return replace(found, **changes)


def day_screens(levels: Sequence[Level], pictures: Sequence[Deviation]) -> Mapping[str, DayEnd]:
    """Ends of days by what went better in them, each by a name."""
    best = BestScore(71, levels[4].id, levels[4].title)
    climbed = views(levels, 5, 2, 4)
    score = replace(PLAIN, best=best, views=views(curves={best.level: pictures}))
    days = {
        "passed": replace(DAY, views=climbed),
        "passed many": replace(FULL_DAY, views=views(levels, 30, 9, 26)),
        "retained": replace(DAY, passed=(), views=climbed),
        "limit": replace(PLAIN, new_limit=NewLimit(0.58, "Closer to the brake"), views=climbed),
        "second year": replace(PLAIN, parts=SECOND_YEAR, views=climbed),
        "back after a rest": replace(DAY, passed=(), still=(5, 6), views=climbed),
        "row": replace(PLAIN, row=9, views=climbed),
        "long row": replace(PLAIN, row=137, views=climbed),
        "score": score,
        "steadier": replace(DAY, views=replace(climbed, step=step())),
        "longest": replace(PLAIN, is_longest=True, views=climbed),
        "plain": replace(PLAIN, views=climbed),
        "plain for years": replace(PLAIN, views=replace(climbed, days=MANY_DAYS)),
        "first": replace(PLAIN, views=replace(climbed, days=((TODAY, 33),)), all_due=0),
        "early": replace(SHORT_DAY, views=replace(climbed, days=((TODAY, 1),))),
        "past midnight": replace(MIDNIGHT, views=climbed),
        "at once": NOTHING,
    }
    screens = {f"day end {name}": DayEnd(day) for name, day in days.items()}
    for name in ("passed", "row", "steadier", "plain"):
        screens[f"day end {name} midway"] = midway(DayEnd(days[name]))
    for name in ("passed", "passed many", "early", "second year", "back after a rest"):
        screens[f"day end {name}, figures"] = with_figures(DayEnd(days[name]))
    return screens


def midway(screen: DayEnd) -> DayEnd:
    """The end of a day in the middle of its movement."""
    screen.on_motion(allowed=True)
    for now in (0.0, LONG / 2):
        screen.on_sample(None, nanoseconds(now))
    return screen


def with_figures(screen: DayEnd) -> DayEnd:
    """The end of a day with all its figures, as asked for by their choice."""
    screen.on_action(Action.NEXT)
    screen.on_action(Action.GO)
    return screen
