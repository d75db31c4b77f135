"""What changes brought, through a real history, and where dips of unlike blips are compared."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest

from drills.score import Reason, Verdict
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.practice.changes import Change, Changed
from engine.practice.results import Purpose
from engine.progress.changes_brought import Told, brought
from engine.progress.changes_words import change_line
from engine.progress.progress import Progress, progress_of
from engine.store import History
from engine.store.changes import mark_change, take_back_mark
from engine.store.repetitions import add_repetition
from tests.bench.change import BEGAN, CHANGED, LAST, PLAIN, THIRD, ChangedFoot
from tests.made import record

LEVELS, BAND = load_levels([SHIPPED]), load_band()
SHOES = Change(datetime(CHANGED.year, CHANGED.month, CHANGED.day, 7, tzinfo=UTC), Changed.SHOES, 0)
HALF = float(np.log(0.5))


def told_of(foot: ChangedFoot, seed: int = 4, today: date = LAST + timedelta(days=1)) -> Told:
    """What is told of one foot."""
    course, peaks = foot.played(np.random.default_rng(seed))
    [one] = brought([SHOES], course, peaks, today)
    return one.told


def test_half_of_the_dip_gone_is_told_as_better_and_a_foot_like_before_is_not() -> None:
    assert told_of(replace(PLAIN, step=HALF)) is Told.BETTER
    assert told_of(replace(PLAIN, step=-HALF)) is Told.WORSE
    assert told_of(PLAIN) is Told.UNSURE


def test_smaller_blips_of_the_same_foot_are_not_told_as_better() -> None:
    told = [told_of(replace(PLAIN, peaks=(65.0, 30.0)), seed) for seed in range(12)]

    assert Told.BLIPS_DIFFER in told
    assert set(told) <= {Told.UNSURE, Told.BLIPS_DIFFER}


def test_nothing_is_compared_before_the_thirteenth_day_with_a_change() -> None:
    course, peaks = replace(PLAIN, step=HALF).played(np.random.default_rng(4))

    told = [
        brought([SHOES], course, peaks, CHANGED + timedelta(days=days))[0].told for days in (11, 12)
    ]

    assert told == [Told.TOO_FEW, Told.BETTER]


@pytest.mark.parametrize(
    ("days", "said"),
    [(6, "4 of 5 days with it, compared"), (9, "7 days with it, compared"), (12, "Dip ")],
)
def test_a_change_with_enough_days_before_it_never_says_that_they_are_too_few(
    days: int, said: str
) -> None:
    today = CHANGED + timedelta(days=days)
    course, peaks = PLAIN.played(np.random.default_rng(4))
    up_to = course.day <= today.toordinal()

    [one] = brought([SHOES], course.only(up_to), peaks[up_to], today)

    assert change_line(one, today).startswith(f"Shoes, 31 Jan. {said}")


def test_a_change_with_too_few_days_before_it_says_so_from_the_first_day_on() -> None:
    course, peaks = PLAIN.played(np.random.default_rng(4))
    since = course.day >= CHANGED.toordinal() - 3

    [one] = brought([SHOES], course.only(since), peaks[since], CHANGED)

    assert change_line(one, LAST).endswith("Too few days of blips before it to compare.")


def test_blips_without_a_peak_have_no_dip_at_one_size() -> None:
    course, peaks = PLAIN.played(np.random.default_rng(4))

    for none in (np.nan, 0.0):
        [one] = brought([SHOES], course, np.full_like(peaks, none), LAST)
        assert one.told is Told.TOO_FEW


def scale(days: int) -> Change:
    """A new scale of the brake, some days after the change of shoes."""
    course, _ = PLAIN.played(np.random.default_rng(4))
    day = CHANGED + timedelta(days=days)
    after = int(np.sum(course.day < day.toordinal()))
    return replace(SHOES, at=SHOES.at + timedelta(days=days), what=Changed.SCALE, after=after)


@pytest.mark.parametrize("days", [-2, 0])
def test_what_is_on_another_scale_of_the_brake_is_not_compared(days: int) -> None:
    course, peaks = PLAIN.played(np.random.default_rng(4))

    [one] = brought([scale(days), SHOES], course, peaks, LAST)

    assert change_line(one, LAST).endswith("Too few days of blips before or after to compare.")
    assert not one.enough_before


def test_what_a_change_brought_is_still_told_after_the_brake_has_another_scale() -> None:
    course, peaks = replace(PLAIN, step=HALF).played(np.random.default_rng(4))
    other = np.where(course.day >= (CHANGED + timedelta(days=20)).toordinal(), 5.0, 1.0)
    up_to = course.day < (CHANGED + timedelta(days=20)).toordinal()

    [before] = brought([SHOES], course.only(up_to), peaks[up_to], CHANGED + timedelta(days=19))
    scaled = replace(course, value=course.value * other)
    [after] = brought([SHOES, scale(20)], scaled, peaks, LAST)

    assert after.told is before.told is Told.BETTER
    assert (after.dips, after.is_open) == (before.dips, False)


def test_only_marks_of_the_player_are_compared_and_the_newest_five_of_them() -> None:
    course, peaks = PLAIN.played(np.random.default_rng(4))
    marks = [replace(SHOES, at=SHOES.at - timedelta(days=40 * ago)) for ago in range(7, -1, -1)]
    set_up = replace(SHOES, what=Changed.SET_UP)

    told = brought([*marks, set_up], course, peaks, LAST)

    assert [one.change for one in told] == marks[-5:]
    assert brought([set_up], course, peaks, LAST) == ()


def practised(history: History, foot: ChangedFoot) -> None:
    """Store the blips of a foot, and a change of shoes on its day."""
    course, peaks = foot.played(np.random.default_rng(4))
    names = ["still-1-light", *(level.id for level in LEVELS if level.kind.name == "blip")]
    for row in range(len(course)):
        day = date.fromordinal(int(course.day[row]))
        if day == CHANGED and course.place[row] == 1:
            mark_change(history, SHOES.at, Changed.SHOES, "thin soles")
        at = datetime(day.year, day.month, day.day, 8, tzinfo=UTC)
        at += timedelta(seconds=10 * int(course.place[row]))
        level = int(course.level[row])
        dip, peak = float(course.value[row]), float(peaks[row])
        measures = {"dip": dip, "surge": 1.0, "peak": peak, "extra_distance": dip / 10}
        add_repetition(
            history,
            record(
                at=at,
                level=BAND.id if level == 0 else names[level],
                why=Purpose.BAND if level == 0 else Purpose.LEARN,
                verdict=Verdict(Reason.CLEAN, 80.0, (), measures),
                trace=None,
            ),
        )


def looked(history: History) -> Progress:
    """Progress as it is read the day after the foot's last."""
    return progress_of(history, LEVELS, BAND, LAST + timedelta(days=1))


def test_a_history_tells_what_its_change_brought_until_the_mark_is_taken_back(
    history: History,
) -> None:
    practised(history, replace(PLAIN, step=THIRD, days=0.05))
    course, peaks = replace(PLAIN, step=THIRD, days=0.05).played(np.random.default_rng(4))

    [one] = looked(history).brought
    [same] = brought([SHOES], course, peaks, LAST + timedelta(days=1))

    assert (one.change.note, one.told, one.days) == ("thin soles", Told.BETTER, 21)
    assert one.dips is not None
    assert same.dips is not None
    assert one.dips.step == pytest.approx(same.dips.step)
    assert one.blips == pytest.approx(same.blips)
    assert take_back_mark(history)
    assert looked(history).brought == ()
    assert not take_back_mark(history)
    assert date(2024, 1, 1) == BEGAN
