"""What is told of a change, of feet for which it brought nothing and of feet for which it did.

    python tests/bench/change.py [FEET]

Every kind of foot is followed FEET times (300 unless told otherwise) from 30 days before a change
to 24 days with it. It plays the steadiness level each day, a new level for eight days and old ones
now and then; each level is harder than the one before it. In percent of feet: how often the
interval covers the change, how often better or worse is told when the three weeks are over, how
often on any day from the first that is told, looked at daily; then the median day with the change,
from 1, on which a change that is there is first told. The goal is 5 % told falsely each.
The second table counts what is told where blips differ, raw and scaled dips together.

With 300 feet of each kind: the interval covers in 94 to 98 % (92 where days are alike by 0.3 and
differ by 30 %), also where the foot learns. A change that brought nothing is told as better in 1 to
4 % and as worse in 1 to 4 % at the end; looked at daily in 2 to 7 % and 2 to 8 %, most where days
are alike or a beginner learns very quickly. A third less is found in 57 % where days differ by
15 %, in 31 % at 30 %, and with three days a week in 17 and 11 %; half in 94 and 73 %; what is found
is mostly found on the 13th day. Blips of another size alone are told as better or worse in 1 %.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta
from functools import partial
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.practice.before_after import EARLIEST, BeforeAfter, Sides, before_after, sides  # noqa: E402
from engine.practice.changes import Change, Changed  # noqa: E402
from engine.practice.course import Course  # noqa: E402
from engine.practice.level_days import LevelDays, comparable, level_days  # noqa: E402
from engine.progress.changes_brought import LEAST, Told, brought  # noqa: E402

FEET = 300
SEED = 21
BEGAN = date(2024, 1, 1)
"""First day of practice of every foot."""
CHANGED = BEGAN + timedelta(days=30)
"""Day of the change."""
LAST = CHANGED + timedelta(days=23)
"""Newest day of practice."""
EACH_NEW = 8
"""Days for which a level is new."""
WARM_UP = 5
"""Repetitions of a day that are left out of courses."""
THIRD = float(np.log(2 / 3))
"""Step of a change that takes a third off the dip, as a logarithm."""

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class ChangedFoot:
    """A foot that practises, and changes something on the way."""

    days: float = 0.15
    """Standard deviation of days, in logarithms."""
    learns: float = 0.0
    """Share of the dip that is gone a day later."""
    half: float = 0.0
    """Days that halve what is left to learn, of 20 points towards 6; 0 for none."""
    step: float = 0.0
    """Logarithm of the factor on the dip that the change brings."""
    alike: float = 0.0
    """Correlation of a day with the next, from 0 to 1."""
    week: tuple[int, ...] = (0, 1, 2, 3, 4, 5, 6)
    """Days of a week with practice, from 0."""
    peaks: tuple[float, float] = (60.0, 60.0)
    """Typical blip before and with the change, in %."""
    settles: float = 0.0
    """Logarithm by which the foot is worse on the first day of a change, less by half each day."""

    def played(self, chance: np.random.Generator) -> tuple[Course, Floats]:
        """Its course of dips in points, and its blips in %."""
        mood = chance.standard_normal((LAST - BEGAN).days + 1)
        for day in range(1, mood.size):
            mood[day] = self.alike * mood[day - 1] + np.sqrt(1 - self.alike**2) * mood[day]
        rows: list[tuple[int, int, float, int]] = []
        peaks: list[Floats] = []
        for day in range(mood.size):
            if day % 7 not in self.week:
                continue
            since = day - (CHANGED - BEGAN).days
            level = self._levels(day, chance)
            peak = self.peaks[since >= 0] * np.exp(0.15 * chance.standard_normal(level.size))
            log = self._middle(day, since) + self.days * mood[day] + 0.1 * level
            log = log + 0.5 * chance.standard_normal(level.size) + np.log(peak / 60)
            rows += [
                (BEGAN.toordinal() + day, place, float(np.exp(one)), int(number))
                for place, (one, number) in enumerate(zip(log, level, strict=True), start=1)
            ]
            peaks.append(peak)
        days, places, values, levels = zip(*rows, strict=True)
        course = Course(
            np.arange(1, len(rows) + 1),
            np.array(days),
            np.array(places),
            np.array(values),
            np.array(levels),
        )
        return course, np.concatenate(peaks)

    def _middle(self, day: int, since: int) -> float:
        """Logarithm of its median dip on a day, at the first level."""
        at = 9.0 if not self.half else 6 + 14 * 2 ** (-day / self.half)
        changed = 0.0 if since < 0 else self.step + self.settles * 0.5**since
        return float(np.log(at)) - self.learns * day + changed

    def _levels(self, day: int, chance: np.random.Generator) -> NDArray[np.int64]:
        """Level of each blip of a day: warming up, steadiness (0), the new level and old ones."""
        new = 1 + day // EACH_NEW
        old = chance.integers(1, new + 1, size=4)
        return np.concatenate((np.full(WARM_UP, new), np.zeros(6), np.full(10, new), old)).astype(
            np.int64
        )


PLAIN = ChangedFoot()
NOTHING = {
    f"{name}, days differ by {days:.0%}": replace(foot, days=days)
    for name, foot in {
        "flat": PLAIN,
        "learns 1 % a day": replace(PLAIN, learns=0.01),
        "learns 2 % a day": replace(PLAIN, learns=0.02),
        "20 to 6, half in 10 days": replace(PLAIN, half=10.0),
        "flat, days alike by 0.3": replace(PLAIN, alike=0.3),
        "flat, worse by half at first": replace(PLAIN, settles=float(np.log(1.5))),
        "flat, three days a week": replace(PLAIN, week=(0, 2, 4)),
        "flat, two days a week": replace(PLAIN, week=(0, 3)),
    }.items()
    for days in (0.15, 0.3)
}
CHANGES = {
    f"{name}, days differ by {days:.0%}": replace(foot, days=days)
    for name, foot in {
        "a third better": replace(PLAIN, step=THIRD),
        "half better": replace(PLAIN, step=float(np.log(0.5))),
        "half worse": replace(PLAIN, step=float(np.log(1.5))),
        "a third better, learns 1 %": replace(PLAIN, step=THIRD, learns=0.01),
        "a third better, three days a week": replace(PLAIN, step=THIRD, week=(0, 2, 4)),
    }.items()
    for days in (0.15, 0.3)
}
SIZES = {
    "no change, blips 45 then 65 %": replace(PLAIN, peaks=(45.0, 65.0)),
    "no change, blips 65 then 45 %": replace(PLAIN, peaks=(65.0, 45.0)),
    "a third better, blips alike": replace(PLAIN, step=THIRD),
}


def cells_of(foot: ChangedFoot, seed: int) -> LevelDays:
    """Comparable level-days of a foot."""
    course, _ = foot.played(np.random.default_rng((SEED, seed)))
    return comparable(level_days(course, LEAST))


def looks(cells: LevelDays) -> Iterator[tuple[int, BeforeAfter]]:
    """What is found on each day of the three weeks, with the number of the day."""
    whole = sides(CHANGED)
    for day in range(EARLIEST.days, (LAST - CHANGED).days + 1):
        until = Sides(whole.before, (whole.after[0], CHANGED + timedelta(days=day)))
        found = before_after(cells, CHANGED, until)
        if found is not None:
            yield day + 1, found


def line(name: str, foot: ChangedFoot, feet: int) -> str:
    """A line of the first table."""
    covered = better = worse = ever_better = ever_worse = told = 0
    first: list[int] = []
    for seed in range(feet):
        seen = list(looks(cells_of(foot, seed)))
        if not seen:
            continue
        told += 1
        last = seen[-1][1]
        covered += abs(last.step - foot.step) <= last.half
        better += last.is_told and last.step < 0
        worse += last.is_told and last.step > 0
        falls = [day for day, found in seen if found.is_told and found.step < 0]
        rises = [day for day, found in seen if found.is_told and found.step > 0]
        ever_better += bool(falls)
        ever_worse += bool(rises)
        first += (falls or rises)[:1]
    if not told:
        return f"{name:52} too few days"
    of = 100 / told
    when = f"{np.median(first):5.0f}" if foot.step and first else ""
    return (
        f"{name:52}{of * covered:6.1f}{of * better:8.1f}{of * worse:7.1f}"
        f"{of * ever_better:8.1f}{of * ever_worse:7.1f} {when}"
    )


def sizes_line(name: str, foot: ChangedFoot, feet: int) -> str:
    """A line of the second table."""
    change = Change(datetime.combine(CHANGED, datetime.min.time(), UTC), Changed.SHOES, 0)
    count = dict.fromkeys(Told, 0)
    for seed in range(feet):
        course, peaks = foot.played(np.random.default_rng((SEED, seed)))
        [one] = brought([change], course, peaks, LAST + timedelta(days=1))
        count[one.told] += 1
    return f"{name:52}" + "".join(f"{100 * count[told] / feet:9.1f}" for told in Told)


def main() -> None:
    """Print both tables, a line as it is ready."""
    feet = int(sys.argv[1]) if len(sys.argv) > 1 else FEET
    print(f"{'':52} cover  better  worse   ever better, worse  day")
    with ProcessPoolExecutor() as pool:
        rows = NOTHING | CHANGES
        for written in pool.map(partial(line, feet=feet), rows, rows.values()):
            print(written, flush=True)
        print(f"\n{'':52}" + "".join(f"{told.name.lower()[:8]:>9}" for told in Told))
        for written in pool.map(partial(sizes_line, feet=feet), SIZES, SIZES.values()):
            print(written, flush=True)


if __name__ == "__main__":
    main()
