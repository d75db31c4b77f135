"""What learning curves tell of feet that are known, over levels as the real planner plans them.

    python tests/bench/learning.py [FEET] [--sentences]

FEET simulated learners (100 unless told otherwise) practise five minutes a day, or on two days a
week, as the planner leads them: levels arrive one after another. What each repetition measures
comes from a foot of which everything is known (planned_courses.py): it falls on every level alike,
or stays the same; days differ, and neighbouring ones may be alike. Shares are in percent.

A *check* is one look at one kind of drill; *once* is the share of courses told wrongly at least
once when they are looked at every week up to day 60. With `--sentences` it prints instead what one
foot is told, on days 10, 20, 40 and 60.

With 60 planned learners and 8 draws of each (the tables have 1 or 4), single blips, every day: one
that falls by a third in 50 days is told learning in 71 % by day 50 and in 91 % by day 60. On days
25, 39, 50 and 60 flat feet are told falling in 4.4 % and rising in 3.8 %; where days are alike by
0.3 in 6.4 and 5.0 %. The weekly table, of one draw each, has 6.7 and 2.6 % for flat feet, and 8.3
and 3.8 %: a third of flat feet are told a trend at least once in its seven looks. The page's test
alone is printed beside it: about the same power by day 50, and more false falls.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.measures.catalogue import CATALOGUE  # noqa: E402
from engine.practice.course import Course  # noqa: E402
from engine.practice.day_effects import day_effects, newest  # noqa: E402
from engine.practice.weighted_slope import BELIEVED, OverDays, over_days  # noqa: E402
from engine.progress.curve_points import cells_of, chart_bins  # noqa: E402
from engine.progress.kind_words import kind_words  # noqa: E402
from engine.progress.learning_curve import NOW_DAYS, LearningCurve, Trend, learning_curve  # noqa: E402
from engine.progress.learning_curve_words import curve_words  # noqa: E402
from engine.progress.progress import KindProgress  # noqa: E402
from tests.bench.planned_courses import (  # noqa: E402
    DAILY,
    MEASURED,
    TWICE_A_WEEK,
    Foot,
    Schedule,
    schedule_of,
)

FEET = 100
SEED = 7000
FIRST = 738_000
LEAST = 0.1
DAYS = 60
WEEKLY = (18, 25, 32, 39, 46, 53, 60)
"""Days on which a course is looked at every week; before the first there are too few days."""
LEARNING_FEET = {
    "falls by a third": Foot(fall=1 / 3),
    "a third, days differ by 30 %": Foot(fall=1 / 3, days=0.3),
    "a third, in the first weeks": Foot(fall=1 / 2, half=20.0),
    "falls by a fifth": Foot(fall=1 / 5),
    "falls by half": Foot(fall=1 / 2),
}
FLAT_FEET = {
    "flat": Foot(),
    "flat, days alike by 0.3": Foot(alike=0.3),
    "flat, days differ by 30 %": Foot(days=0.3),
    "flat, 30 % and alike by 0.3": Foot(days=0.3, alike=0.3),
}
WORSE_FEET = {"rises by half": Foot(fall=-1 / 2)}
Test = Callable[[OverDays], tuple[bool, bool]]
TESTS: dict[str, Test] = {
    "plain, p 0.04 (the page)": lambda found: (found.plain.falls, found.plain.rises),
    "plain, p 0.02": lambda found: (found.plain.p_fall <= 0.02, found.plain.p_rise <= 0.02),
    f"weighted, p {BELIEVED:g} (told)": lambda found: (found.falls, found.rises),
}


def up_to(course: Course, day: int) -> Course:
    """The first days of a course."""
    return course.only(course.day < FIRST + day)


def rng_of(number: int, kind: str) -> np.random.Generator:
    """Chance of one foot in one kind of drill."""
    return np.random.default_rng((SEED, number, *kind.encode()))


def trends(
    foot: Foot, schedules: Sequence[Schedule], kinds: Sequence[str], days: Sequence[int]
) -> list[list[LearningCurve]]:
    """For each course what is told on each of the days."""
    found = []
    for number, schedule in enumerate(schedules):
        for kind in kinds:
            course = foot.course_of(schedule, kind, rng_of(number, kind))
            found.append([learning_curve(up_to(course, day), LEAST) for day in days])
    return found


def told_line(name: str, found: Sequence[Sequence[LearningCurve]], wrong: set[Trend]) -> str:
    """Shares of what is told in all checks with enough days, and of courses told wrongly once."""
    checks = [one for course in found for one in course if one.trend is not Trend.TOO_EARLY]
    count = Counter(one.trend for one in checks)
    courses = [
        course for course in found if any(one.trend is not Trend.TOO_EARLY for one in course)
    ]
    once = sum(any(one.trend in wrong for one in course) for course in courses)
    cells = " ".join(
        f"{100 * count[trend] / max(len(checks), 1):8.1f}"
        for trend in (Trend.LEARNING, Trend.NONE, Trend.FLAT, Trend.WORSE)
    )
    return f"{name:30}{len(checks):7} {cells}{100 * once / max(len(courses), 1):8.1f}"


HEAD = f"{'':30}{'checks':>7}{'learning':>9}{'none':>9}{'flat':>9}{'worse':>9}{'once':>8}"


def told_table(title: str, schedules: Sequence[Schedule], days: Sequence[int]) -> Iterator[str]:
    """What is told of every foot at weekly looks, of single blips and of the other kinds."""
    others = [kind for kind in MEASURED if kind != "blip"]
    for kinds_name, kinds in (("single blips", ["blip"]), ("other kinds", others)):
        yield f"\n{title}, {kinds_name}; wrong: flat or worse of one that learns, any of a flat one"
        yield HEAD
        for name, foot in LEARNING_FEET.items():
            wrong = {Trend.FLAT, Trend.WORSE}
            yield told_line(name, trends(foot, schedules, kinds, days), wrong)
        for name, foot in FLAT_FEET.items():
            wrong = {Trend.LEARNING, Trend.WORSE}
            yield told_line(name, trends(foot, schedules, kinds, days), wrong)
        for name, foot in WORSE_FEET.items():
            wrong = {Trend.FLAT, Trend.LEARNING}
            yield told_line(name, trends(foot, schedules, kinds, days), wrong)


def power_table(schedules: Sequence[Schedule]) -> Iterator[str]:
    """Share told learning by day and by how much a foot falls in 50 days."""
    days = (10, 20, 30, 40, 50, 60)
    for kind in MEASURED:
        yield f"\ntold learning, {kind}{'':12}" + "".join(f"{f'day {day}':>8}" for day in days)
        for fall in (0.1, 0.2, 1 / 3, 0.5) if kind == "blip" else (1 / 3,):
            found = trends(Foot(fall=fall), schedules, [kind], days)
            yield f"  {100 * fall:3.0f} % less in 50 days{'':12}" + "".join(
                f"{100 * np.mean([row[k].trend is Trend.LEARNING for row in found]):8.0f}"
                for k in range(len(days))
            )


def tests_table(title: str, schedules: Sequence[Schedule], day: int) -> Iterator[str]:
    """Share of falls and rises that each test finds, single blips and easing off, on one day."""
    feet = {**FLAT_FEET, "falls by a third": LEARNING_FEET["falls by a third"]}
    yield f"\n{title}, day {day}: fall / rise found by{'':8}" + "".join(
        f"{one:>26}" for one in TESTS
    )
    for kind in ("blip", "trail"):
        for name, foot in feet.items():
            found = [
                over_days(newest(cells_of(up_to(course, day), LEAST)))
                for number, schedule in enumerate(schedules)
                for turn in range(4)
                for course in [foot.course_of(schedule, kind, rng_of(number, f"{kind}{turn}"))]
            ]
            tested = [one for one in found if one is not None and one.is_tested]
            cells = []
            for test in TESTS.values():
                falls, rises = np.mean([test(one) for one in tested], axis=0) if tested else (0, 0)
                cells.append(f"{100 * falls:5.1f} / {100 * rises:4.1f}")
            yield f"{kind:6}{name:32}{len(tested):5}" + "".join(f"{one:>26}" for one in cells)


def intervals_table(schedules: Sequence[Schedule]) -> Iterator[str]:
    """How often the present value and the value ahead cover what they are of, single blips."""
    yield f"\n{'intervals, day 60':30}{'now':>7}{'covers':>8}{'reach':>8}{'ahead':>8}{'covers':>8}"
    for name, foot in {**LEARNING_FEET, **FLAT_FEET}.items():
        now, ahead, reach = list[bool](), list[bool](), list[float]()
        for number, schedule in enumerate(schedules):
            course = foot.course_of(schedule, "blip", rng_of(number, "blip"))
            found = learning_curve(course, LEAST)
            true = _true_now(foot, course)
            if found.now is not None:
                now.append(found.now[0] <= true <= found.now[2])
                reach.append(found.now[2] / found.now[1] - 1)
            if found.ahead is not None:
                pace = len(course.only(course.day > course.day.max() - 28)) / 28
                last = np.array([float(course.day.max() - FIRST)])
                later = foot.over(last + found.ahead.repetitions / pace)
                value = true * float(np.exp(later - foot.over(last))[0])
                ahead.append(found.ahead.value[0] <= value <= found.ahead.value[2])
        yield (
            f"{name:30}{len(now):7}{100 * np.mean(now):8.0f}{100 * np.median(reach):7.0f}%"
            f"{len(ahead):8}" + (f"{100 * np.mean(ahead):8.0f}" if ahead else "")
        )


def _true_now(foot: Foot, course: Course) -> float:
    """Value of the foot at today's level over the newest days, of usual days."""
    effects = day_effects(cells_of(course, LEAST))
    days = (effects.day[-NOW_DAYS:] - FIRST).astype(np.float64)
    level = np.array([effects.level])
    return float(np.exp(foot.at_level(level)[0] + foot.over(days).mean()))


def sentences() -> Iterator[str]:
    """What one foot that falls by a third in 50 days is told of single blips."""
    feet = {"every day": DAILY, "two days a week": TWICE_A_WEEK}
    for name, week in feet.items():
        schedule = schedule_of(SEED, DAYS + 21, week)
        course = Foot(fall=1 / 3).course_of(schedule, "blip", rng_of(0, "blip"))
        rested = replace(course, day=course.day + 21 * (course.day >= FIRST + 40))
        for day in (10, 20, 40, 60):
            yield f"{name}, day {day}: {_told(course, day)}"
        for day in (62, 71, 81):
            yield f"{name}, three weeks' rest from day 40, day {day}: {_told(rested, day)}"


def _told(course: Course, day: int) -> str:
    """What is told of a course of single blips at the end of a day."""
    measure = CATALOGUE["dip"]
    learning = learning_curve(up_to(course, day), LEAST)
    words = curve_words(learning, measure, date.fromordinal(FIRST + day))
    bins = chart_bins(up_to(course, day), [], LEAST)
    return kind_words(KindProgress("One blip", measure, learning, words, bins, 0))


def main() -> None:
    """Print the tables, or the sentences."""
    numbers = [word for word in sys.argv[1:] if word.isdigit()]
    feet = int(numbers[0]) if numbers else FEET
    if "--sentences" in sys.argv:
        print("\n".join(sentences()))
        return
    seeds = range(SEED, SEED + feet)
    with ProcessPoolExecutor() as pool:
        daily = list(pool.map(partial(schedule_of, days=DAYS), seeds))
        rare = list(pool.map(partial(schedule_of, days=2 * DAYS, week=TWICE_A_WEEK), seeds))
    tables = (
        told_table("five minutes a day", daily, WEEKLY),
        power_table(daily),
        told_table("two days a week", rare, (60, 74, 88, 102, 116)),
        tests_table("five minutes a day", daily, 25),
        tests_table("five minutes a day", daily, 50),
        tests_table("five minutes a day", daily, 60),
        tests_table("two days a week", rare, 120),
        intervals_table(daily),
    )
    for table in tables:
        for line in table:
            print(line, flush=True)


if __name__ == "__main__":
    main()
