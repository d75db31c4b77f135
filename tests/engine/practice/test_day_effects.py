"""Slopes and day effects against a second implementation, and what they do in plain cases."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest

from drills.score import Reason, Verdict
from engine.ladder.level_files import SHIPPED, load_levels
from engine.practice.course import Course
from engine.practice.day_effects import (
    FLIPS,
    SEED,
    WINDOW,
    Slope,
    day_effects,
    least,
    newest,
    slope,
    todays_level,
)
from engine.practice.level_days import LevelDays, comparable, level_days
from engine.store import History
from engine.store.courses import courses_of
from engine.store.repetitions import add_repetition
from tests.engine.practice import plain_course
from tests.engine.practice.plain_course import Repetition
from tests.made import record

FIRST = 738_000
LEAST = 0.1


def made(seed: int, days: int, levels: int, a_day: int = 14, fall: float = 0.0) -> list[Repetition]:
    """A foot whose levels come one after another, each with a spread of days and repetitions."""
    rng = np.random.default_rng(seed)
    found = []
    for day in range(days):
        opened = min(1 + levels * day // days, levels)
        mood = rng.normal(0, 0.2)
        for place in range(1, a_day + 1):
            level = int(rng.integers(max(0, opened - 4), opened)) if place % 3 else opened - 1
            value = np.exp(0.2 * level + fall * day + mood + rng.normal(0, 0.5) + 1.5)
            found.append((FIRST + day, place, level, float(value if rng.random() < 0.97 else 0.0)))
    return found


def course(repetitions: list[Repetition]) -> Course:
    """The same repetitions as a course."""
    day, place, level, value = (np.array(column) for column in zip(*repetitions, strict=True))
    return Course(np.arange(1, day.size + 1), day, place, value.astype(np.float64), level)


def cells_of(repetitions: list[Repetition]) -> LevelDays:
    """Their comparable level-days."""
    return comparable(level_days(course(repetitions), LEAST))


def cells(*rows: tuple[int, int, float]) -> LevelDays:
    """Level-days of rows of level, day and logarithm."""
    level, day, logs = (np.array(column) for column in zip(*rows, strict=True))
    return LevelDays(level, day, logs.astype(np.float64), logs, np.ones_like(day))


def exactly(found: Slope | None) -> tuple[float, float, float]:
    """The three figures that the second implementation gives too."""
    assert found is not None
    return found.a_day, found.p_fall, found.p_rise


@pytest.mark.parametrize(("seed", "days", "levels"), [(1, 20, 3), (2, 60, 8), (3, 120, 20)])
def test_slope_and_effects_agree_with_a_second_implementation(
    seed: int, days: int, levels: int
) -> None:
    repetitions = made(seed, days, levels, fall=-0.008)
    found, plain = cells_of(repetitions), plain_course.cells(repetitions, LEAST)

    effects = day_effects(found)
    expected = plain_course.effects(plain, effects.level)
    recent = plain_course.newest(plain, WINDOW)

    assert exactly(slope(found)) == pytest.approx(
        plain_course.slope(plain, FLIPS, SEED), rel=0, abs=1e-9
    )
    assert exactly(slope(newest(found))) == pytest.approx(
        plain_course.slope(recent, FLIPS, SEED), rel=0, abs=1e-9
    )
    assert effects.day.tolist() == list(expected)
    assert effects.log.tolist() == pytest.approx(list(expected.values()), rel=0, abs=1e-9)


def test_they_agree_through_the_store(history: History) -> None:
    blips = [level for level in load_levels([SHIPPED]) if level.kind.name == "blip"]
    repetitions = made(4, 20, 3, a_day=9)
    for day, place, level, value in repetitions:
        at = datetime.combine(date.fromordinal(day), datetime.min.time(), UTC)
        verdict = Verdict(Reason.CLEAN, 80.0, (), {"dip": value})
        add_repetition(
            history,
            record(
                level=blips[level].id,
                kind="blip",
                at=at + timedelta(hours=9, minutes=place),
                verdict=verdict,
                trace=None,
            ),
        )

    read = courses_of(history, {"blip": "dip"})["blip"]
    found = comparable(level_days(read, least("points")))

    plain = plain_course.cells(repetitions, LEAST)
    assert exactly(slope(found)) == pytest.approx(
        plain_course.slope(plain, FLIPS, SEED), rel=0, abs=1e-9
    )
    effects = day_effects(found)
    # Levels are numbered in the order in which they are met, as here.
    expected = plain_course.effects(plain, effects.level)
    assert dict(zip(effects.day.tolist(), effects.log.tolist(), strict=True)) == pytest.approx(
        expected, rel=0, abs=1e-9
    )


def test_a_foot_that_improves_on_every_level_falls_though_its_levels_are_ever_harder() -> None:
    rows = [
        (level, day, 0.5 * level - 0.01 * day) for level in range(5) for day in range(9 * level, 45)
    ]

    found = slope(cells(*rows))

    assert found is not None
    assert found.a_day == pytest.approx(-0.01)
    assert found.falls
    assert not found.rises
    assert found.change == pytest.approx(np.exp(-0.5) - 1)


def test_a_foot_that_never_varies_has_no_slope() -> None:
    found = slope(cells(*((0, day, 1.0) for day in range(20))))

    assert found == Slope(0.0, 0.0, 20, 1.0, 1.0)
    assert not found.falls
    assert not found.rises


def test_nothing_is_told_before_ten_days() -> None:
    nine, ten = (slope(cells(*((0, day, -0.1 * day) for day in range(n)))) for n in (9, 10))

    assert nine is not None
    assert ten is not None
    assert (nine.falls, ten.falls) == (False, True)


def test_days_are_valued_at_the_level_most_played_of_late() -> None:
    rows = [(0, day, 1.0 + 0.1 * (day % 2)) for day in range(20)]
    rows += [(1, day, 2.0 + 0.1 * (day % 2)) for day in range(8, 20)]
    found = cells(*rows)

    effects = day_effects(found)

    assert todays_level(found) == effects.level == 1
    assert effects.log.tolist() == pytest.approx([2.0 + 0.1 * (day % 2) for day in range(20)])


def test_days_that_nothing_joins_with_todays_level_have_no_value() -> None:
    apart = cells((0, 1, 1.0), (0, 2, 1.0), (1, 5, 3.0), (1, 6, 3.0))

    effects = day_effects(apart)

    assert (effects.level, effects.day.tolist()) == (1, [5, 6])
    assert effects.value.tolist() == pytest.approx([np.exp(3.0)] * 2)


def test_the_newest_days_are_of_the_calendar_and_drop_levels_with_one_day_left() -> None:
    found = newest(cells((0, 1, 1.0), (0, 50, 1.0), (1, 57, 1.0), (1, 56, 1.0)), back=56)

    assert (found.level.tolist(), found.day.tolist()) == ([1, 1], [57, 56])


def test_without_level_days_there_is_nothing() -> None:
    none = cells_of([(FIRST, 6, 0, 1.0)])

    assert slope(none) is None
    assert slope(newest(none)) is None
    assert not len(day_effects(none))
