"""Screens of guesses, summaries, lessons, moments and the placing set, for tests that draw them."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from drills.kinds import KINDS
from drills.level import Level
from drills.trace import Sample, nanoseconds
from engine.drill.guess_screen import Guess
from engine.drill.guesses import STEPS
from engine.drill.lesson import Lesson
from engine.drill.lesson_moves import MOVES
from engine.drill.lesson_way import WayMenu
from engine.drill.lesson_words import terms_of
from engine.drill.moment import Moment
from engine.drill.moment_rules import Achievement, AchievementKind
from engine.drill.moment_words import (
    best_words,
    clean_row_words,
    days_words,
    next_row_words,
    pass_words,
    passed_words,
    retained_words,
)
from engine.drill.summary import Summary
from engine.drill.tally import recent_repetitions
from engine.kit.base import Place, Screen
from engine.kit.foot_pose import Way
from engine.ladder.ladder import ladder_stages
from engine.ladder.level_files import SHIPPED, load_levels
from engine.ladder.placing_screens import BeforePlacing, PlacingEnd
from engine.pedals.rig import Means
from engine.stage.actions import Action
from engine.store import Record

LEVELS = load_levels([SHIPPED])
STAGES = ("stillness", "first blip", "quiet blip", "runs", "easing off")


def guess(asks: str, taps: int) -> Guess:
    """A guess screen after some taps of the throttle."""
    screen = Guess(asks, Place(3, 10))
    for _ in range(taps):
        screen.on_action(Action.NEXT)
    return screen


def placed(levels: Sequence[Level], stages: int) -> PlacingEnd:
    """The end of a placing set that skipped some stages."""
    taken = STAGES[:stages]
    past = frozenset(level.id for level in levels if level.stage in taken)
    following = next(level for level in levels if level.id not in past)
    return PlacingEnd(ladder_stages(levels, frozenset(), past), following, taken, 2 * stages + 2)


def summary(level: Level, records: Sequence[Record], pictures: Sequence[Any]) -> Summary:
    """A summary of the records that count."""
    counted = [record for record in records if not record.verdict.void]
    return Summary(level, recent_repetitions(counted), pictures, Place(len(counted), 10))


def moment(achievement: Achievement, line: str, seconds: float, *, moves: bool = True) -> Moment:
    """A moment some seconds after it began."""
    screen = Moment(achievement, line, Place(3, 0, left=0.6))
    screen.on_motion(allowed=moves)
    screen.on_sample(None, 0)
    screen.on_sample(None, nanoseconds(seconds))
    return screen


def moment_screens() -> Mapping[str, Screen[Any]]:
    """Moments of every kind at their beginning, in motion and at rest."""
    passed = Achievement(
        AchievementKind.PASSED, passed_words("Closer to the brake"), level="closer"
    )
    moments = {
        "passed": (passed, "Next: Two downshifts."),
        "retained": (retained_moment(1), "Next check-up in 3 days."),
        "well retained": (retained_moment(2), "Next check-up in 21 days."),
        "best": (Achievement(AchievementKind.BEST, best_words(7, 10)), pass_words(8, 10)),
        "row": (Achievement(AchievementKind.ROW, clean_row_words(25)), next_row_words(50)),
        "days": (Achievement(AchievementKind.ROW, days_words(7)), "Next: 30 days in a row."),
        "of much": (
            replace(passed, words=retained_words("T" * 20 + " " + "t" * 19, well=True)),
            f"{best_words(100, 100)} {days_words(365, is_longest=True)} {clean_row_words(900)}",
        ),
    }
    return {
        f"moment {name} {when}": moment(achievement, line, seconds)
        for name, (achievement, line) in moments.items()
        for when, seconds in (("begins", 0.0), ("moves", 0.3), ("fills", 0.6), ("rests", 1.0))
    }


def retained_moment(rings: int) -> Achievement:
    """Achievement of a level retained, with a new ring."""
    words = retained_words("Closer to the brake", well=rings > 1)
    return Achievement(
        AchievementKind.RETAINED, words, level="closer", rings=rings, is_new_ring=True
    )


def looking_back_screens(levels: Sequence[Level]) -> Mapping[str, Screen[Any]]:
    """Screens of guesses, of moments and of the placing set by name."""
    asked = {level.kind.guess_question for level in levels if level.guess}
    return {
        **moment_screens(),
        **{f"guess {asks}": guess(asks, len(asks) % len(STEPS)) for asks in sorted(asked)},
        "guess most": guess("How far did the brake fall?", len(STEPS) - 1),
        "before placing": BeforePlacing(12),
        **lesson_screens(),
        **{f"placed past {stages}": placed(levels, stages) for stages in range(6)},
    }


def lesson(name: str, *, moves: bool, seen: Sequence[str] = (), seconds: float = 0.0) -> Lesson:
    """A lesson by its name, some seconds after it opened."""
    title = KINDS[name.partition(" ")[0]].title
    screen = Lesson(name, title, Way.ROLL, terms_of(name, seen))
    screen.on_means(Means(feet=True, buttons=True))
    screen.on_motion(allowed=moves)
    for now in (0, nanoseconds(seconds)):
        screen.on_sample(Sample(now, 0.0, 0.0), now)
    return screen


def way_menu(now: Way | None, *, moves: bool, seconds: float = 0.0) -> WayMenu:
    """The menu of ways to blip, some seconds after it opened."""
    screen = WayMenu(now)
    screen.on_means(Means(feet=True, buttons=True))
    screen.on_motion(allowed=moves)
    for time in (0, nanoseconds(seconds)):
        screen.on_sample(Sample(time, 0.0, 0.0), time)
    return screen


def lesson_screens() -> Mapping[str, Screen[Any]]:
    """Screens of lessons by name: moving, at their middle and end, and still."""
    return {
        **{f"lesson {name}": lesson(name, moves=True, seconds=3.3) for name in MOVES},
        **{f"lesson {name} still": lesson(name, moves=False) for name in MOVES},
        **{
            f"lesson {name} later": lesson(name, moves=True, seen=tuple(MOVES), seconds=5.9)
            for name in MOVES
        },
        **{
            f"lesson {name} still later": lesson(name, moves=False, seen=tuple(MOVES))
            for name in MOVES
        },
        "way asked": way_menu(None, moves=True, seconds=0.8),
        "way asked still": way_menu(None, moves=False),
        "way changed": way_menu(Way.HEEL, moves=True, seconds=1.5),
    }


def longest_named(levels: Sequence[Level]) -> Place:
    """The place of a mixed repetition whose level has the longest title."""
    return replace(Place(10, 10), named=max((level.kind.title for level in levels), key=len))
