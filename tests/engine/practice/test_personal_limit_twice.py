"""Personal limits once more by their definition alone, from measures and limits, in a store."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from drills.level import Level
from drills.score import Reason, Verdict, weigh
from engine.ladder.level_files import SHIPPED, load_levels
from engine.practice.results import Purpose
from engine.store import History, Record, open_history
from engine.store.personal import personal_limits
from engine.store.repetitions import add_repetition

BEGAN = datetime(2024, 3, 1, 18, tzinfo=UTC)
LEVELS = [level for level in load_levels([SHIPPED]) if level.limits][:12]
PLACES = 1e-4
"""Precision to which a factor on the limits is kept."""
NONE = 4.0
"""Multiple of its limit that a measure without a value counts as."""


@dataclass(frozen=True)
class Tried:
    """One repetition as it is entered."""

    level: Level
    """Level that it is of."""
    day: int
    """Number of its day."""
    measures: Mapping[str, float | None]
    """Measures that the level limits."""
    missed: Reason | None = None
    """What was asked and not done; None where all was."""
    feet: bool = True
    """Whether feet played it."""
    void: bool = False
    """Whether it could not be judged."""
    why: Purpose = Purpose.CHOSEN
    """Why it was played."""


def by_definition(tried: Sequence[Tried], level: Level) -> float | None:
    """75 % quantile of max(x / L) of the newest 36 of a level that count, at most 9 of one day."""
    newest: list[float] = []
    days: dict[int, int] = {}
    for one in reversed(tried):
        counts = one.feet and not one.void and one.why is not Purpose.TRIAL
        if one.level.id != level.id or not counts or days.get(one.day, 0) == 9:
            continue
        days[one.day] = days.get(one.day, 0) + 1
        loads = [
            NONE if one.measures[name] is None else abs(one.measures[name] or 0.0) / limit
            for name, limit in level.limits.items()
        ]
        newest.append(NONE if one.missed else min(max(loads), NONE))
        if len(newest) == 36:
            ranked = sorted(newest)
            # The 75 % quantile of 36 lies a quarter of the way from the 27th to the 28th.
            return ranked[26] + 0.25 * (ranked[27] - ranked[26])
    return None


def drawn(rng: np.random.Generator, count: int) -> Iterator[Tried]:
    """Repetitions of three levels over some weeks: most count, some miss what was asked."""
    day = 0
    for _ in range(count):
        day += int(rng.random() < 0.12)
        level = LEVELS[int(rng.integers(3))]
        load = float(rng.lognormal(-0.4 - 0.01 * day, 0.4))
        names = list(level.limits)
        worst = names[int(rng.integers(len(names)))]
        values: dict[str, float | None] = {
            name: limit * load * (1.0 if name == worst else float(rng.random()))
            for name, limit in level.limits.items()
        }
        if rng.random() < 0.04:
            values[worst] = None
        yield Tried(
            level,
            day,
            values,
            missed=Reason.LATE if rng.random() < 0.04 else None,
            feet=bool(rng.random() < 0.97),
            void=bool(rng.random() < 0.04),
            why=Purpose.MIX if rng.random() < 0.5 else Purpose.LEARN,
        )


def enter(history: History, tried: Sequence[Tried]) -> None:
    """Store repetitions in order."""
    for place, one in enumerate(tried):
        verdict = weigh(one.measures, one.level.limits, one.missed)
        add_repetition(
            history,
            Record(
                level=one.level.id,
                kind=one.level.kind.name,
                source="pedals" if one.feet else "mouse",
                feet=one.feet,
                at=BEGAN + timedelta(days=one.day, seconds=place),
                target=60.0,
                tolerance=one.level.tolerance,
                verdict=Verdict(Reason.GAP) if one.void else verdict,
                trace=None,
                dark=None,
                cues=(),
                sampling=None,
                calibration=None,
                rule=one.level.rule,
                why=one.why,
            ),
        )


@pytest.mark.parametrize("seed", [1, 2])
def test_a_personal_limit_is_the_upper_quartile_of_the_newest_36_loads(
    seed: int, tmp_path: Path
) -> None:
    tried = list(drawn(np.random.default_rng(seed), 320))

    with open_history(tmp_path, []) as history:
        enter(history, tried)
        found = personal_limits(history)

    assert {one.level.id for one in tried} == found.keys()
    for level in LEVELS[:3]:
        expected = by_definition(tried, level)
        assert expected is not None
        assert found[level.id].factor == pytest.approx(expected, abs=PLACES)


def test_a_personal_limit_is_the_same_after_every_single_repetition(tmp_path: Path) -> None:
    tried = [
        replace(one, level=LEVELS[0], measures=dict.fromkeys(LEVELS[0].limits, 3.0 + number % 7))
        for number, one in enumerate(drawn(np.random.default_rng(5), 60))
    ]

    with open_history(tmp_path, []) as history:
        for number, one in enumerate(tried, start=1):
            enter(history, [one])
            found = personal_limits(history).get(LEVELS[0].id)

            expected = by_definition(tried[:number], LEVELS[0])
            factor = None if found is None else found.factor
            assert factor == (None if expected is None else pytest.approx(expected, abs=PLACES))


def test_thirty_six_loads_counted_by_hand_have_their_27th_and_a_quarter_more(
    tmp_path: Path,
) -> None:
    level = LEVELS[0]
    order = np.random.default_rng(3).permutation(np.arange(1, 37)).tolist()
    tried = [
        Tried(level, number // 9, {name: k / 20 * limit for name, limit in level.limits.items()})
        for number, k in enumerate(order)
    ]

    with open_history(tmp_path, []) as history:
        enter(history, tried[:-1])
        before = personal_limits(history)[level.id].factor
        enter(history, tried[-1:])
        found = personal_limits(history)[level.id].factor

    assert before is None
    assert found == pytest.approx(27.25 / 20)


def test_no_mouse_no_trial_and_no_void_repetition_moves_a_personal_limit(tmp_path: Path) -> None:
    level = LEVELS[0]
    good = dict.fromkeys(level.limits, 0.01)
    tried = [Tried(level, number // 6, dict(level.limits)) for number in range(36)]
    none_counts = [
        *(Tried(level, 9, good, feet=False) for _ in range(20)),
        *(Tried(level, 10, good, void=True) for _ in range(20)),
    ]

    with open_history(tmp_path, []) as history:
        enter(history, [*tried, *none_counts])
        found = personal_limits(history)[level.id]

    assert found.factor == pytest.approx(1.0)
    assert len(found.loads) == 36


def test_the_best_is_a_personal_limit_there_was_and_never_rises(tmp_path: Path) -> None:
    tried = [one for one in drawn(np.random.default_rng(8), 400) if one.level is LEVELS[0]]
    bests: list[float] = []
    ever: list[float | None] = []

    with open_history(tmp_path, []) as history:
        for number, one in enumerate(tried, start=1):
            enter(history, [one])
            ever.append(by_definition(tried[:number], LEVELS[0]))
            found = personal_limits(history).get(LEVELS[0].id)
            if found is not None and found.best is not None:
                bests.append(found.best)
                assert any(value == pytest.approx(found.best, abs=PLACES) for value in ever)

    assert bests == sorted(bests, reverse=True)
    assert len(set(bests)) > 1


def best_by_definition(tried: Sequence[Tried], level: Level) -> float | None:
    """Lowest factor that the personal limits at the ends of two blocks in a row both lay within.

    A block ends with the first repetition that is 36 after the end of the one before, and 14 days;
    the tenth of one day is none of these 36.
    """
    ends: list[tuple[int, float]] = []
    since = 0
    for number, one in enumerate(tried, start=1):
        earlier = [other for other in tried[:number] if other.day == one.day]
        since += len(earlier) <= 9
        if since < 36 or (ends and one.day - ends[-1][0] < 14):
            continue
        factor = by_definition(tried[:number], level)
        assert factor is not None
        ends.append((one.day, factor))
        since = 0
    pairs = pairwise(ends)
    return min((max(first, then) for (_, first), (_, then) in pairs), default=None)


@pytest.mark.parametrize(("seed", "a_day"), [(1, 4), (2, 12), (3, 9)])
def test_the_best_is_what_two_blocks_in_a_row_lay_within(
    seed: int, a_day: int, tmp_path: Path
) -> None:
    rng = np.random.default_rng(seed)
    level = LEVELS[0]
    tried = [
        Tried(
            level,
            number // a_day,
            {name: limit * float(rng.lognormal(-0.4, 0.4)) for name, limit in level.limits.items()},
        )
        for number in range(300)
    ]

    with open_history(tmp_path, []) as history:
        enter(history, tried)
        found = personal_limits(history)[level.id]

    expected = best_by_definition(tried, level)
    assert expected is not None
    assert found.best == pytest.approx(expected, abs=PLACES)
