"""Steadiness as home shows it, against a second implementation that uses nothing of the product.

Histories are made up from a seed and stored; both read them.
"""

import math
import sqlite3
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import stats

from drills.score import Reason, Verdict
from engine.five.player_history import blips_so_far, steadiness_blips, steadiness_view
from engine.ladder.level_files import load_band
from engine.practice.changes import Changed
from engine.practice.results import Purpose
from engine.practice.steadiness import counted
from engine.practice.steadiness_interval import order_interval
from engine.store import History, open_history
from engine.store.changes import mark_change
from engine.store.repetitions import add_repetition
from tests.made import record

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
BAND = load_band()
PEAKS = 35.0, 85.0
"""Smallest and largest peak of the blips that are made up, in %."""
NOON = datetime(2024, 5, 17, 12, tzinfo=UTC)
READ = """
SELECT at_utc, offset, dip.value, surge.value, peak.value FROM repetition AS r
JOIN measure AS dip ON dip.repetition = r.id
JOIN measure AS surge ON surge.repetition = r.id
JOIN measure AS peak ON peak.repetition = r.id
WHERE r.why = 'steadiness' AND r.feet = 1 AND r.void = 0 AND r.id > ?
AND dip.name = (SELECT id FROM measure_name WHERE name = 'dip')
AND surge.name = (SELECT id FROM measure_name WHERE name = 'surge')
AND peak.name = (SELECT id FROM measure_name WHERE name = 'peak')
AND peak.value BETWEEN 40 AND 80
ORDER BY r.id DESC
"""


def made(history: History, seed: int, days: int) -> int:
    """Store blips of a foot, some days with many; returns the last number of the old scale."""
    rng = np.random.default_rng(seed)
    changed = int(rng.integers(days)) if seed % 3 == 0 else -1
    after = last = 0
    for number in range(days):
        at = NOON - timedelta(days=days - 1 - number)
        if number == changed:
            mark_change(history, at, Changed.SCALE)
            after = last
        about = rng.lognormal(2.0, 0.3)
        for _ in range(int(rng.choice([0, 3, 6, 6, 6, 9, 13]))):
            dip, surge = about * rng.lognormal(0, 0.4, 2)
            measures = {"dip": dip, "surge": surge / 2, "peak": float(rng.uniform(*PEAKS))}
            last = add_repetition(
                history,
                record(
                    at=at,
                    verdict=Verdict(Reason.CLEAN, 80.0, (), measures),
                    trace=None,
                    level=BAND.id,
                    why=Purpose.BAND,
                    asked=8.0,
                ),
            )
    return after


@dataclass(frozen=True)
class Expected:
    """What the second implementation finds, in points; nothing but the count below 36 blips."""

    count: int
    value: float = math.nan
    ends: tuple[float, float] = (math.nan, math.nan)
    order: tuple[float, float] = (math.nan, math.nan)
    days: int = 0


def expected_interval(ordinals: IntArray, x: FloatArray) -> tuple[float, float]:
    """Ends of the interval for 36 deviations `x` and the numbers of their days, by matrices."""
    q = float(np.quantile(x, 0.75))
    y = np.clip(np.log(x / q), -math.log(10), math.log(10))
    of_day = (np.unique(ordinals)[:, None] == ordinals).astype(float)
    n = of_day.sum(axis=1)
    averaging = of_day.T @ np.diag(1 / n) @ of_day
    residuals, daily = y - averaging @ y, averaging @ y - y.mean()
    free = len(n) - 1
    within = residuals @ residuals / (36 - len(n))
    n0 = (36 - n @ n / 36) / free
    between = max(0.0, (daily @ daily / free - within) / n0)
    shrunk = np.average([0.09, between], weights=[20, free])
    normal = stats.norm(0, 1)
    c = 0.1875 / normal.pdf(normal.ppf(0.75)) ** 2
    error = math.sqrt(c * within / 36 + shrunk * (n @ n) / 36**2)
    age = np.minimum(ordinals.max() - ordinals, 14).mean()
    order = np.sort(x)[[21, 32]]
    return (
        float(min(order[0], q / math.exp(error + 0.02 * age))),
        float(max(order[1], q * math.exp(2.2 * error))),
    )


def expected(path: Path, after: int) -> Expected:
    """Blips that count up to 36, and what follows from 36."""
    db = sqlite3.connect(path)
    rows = db.execute(READ, (after,)).fetchall()
    db.close()
    taken: list[tuple[date, float]] = []
    for at, offset, dip, surge, peak in rows:
        day = (datetime.fromisoformat(at) + timedelta(minutes=offset)).date()
        if sum(one == day for one, _ in taken) < 9 and len(taken) < 36:
            taken.append((day, max(dip, surge) * 60 / peak))
    if len(taken) < 36:
        return Expected(len(taken))
    ordinals = np.array([day.toordinal() for day, _ in taken])
    x = np.array([deviation for _, deviation in taken])
    ranked = sorted(x.tolist())
    return Expected(
        36,
        float(np.quantile(x, 0.75)),
        expected_interval(ordinals, x),
        (ranked[21], ranked[32]),
        len(set(ordinals.tolist())),
    )


@pytest.mark.parametrize("seed", range(12))
def test_both_agree_to_a_billionth_on_made_up_histories(tmp_path: Path, seed: int) -> None:
    with open_history(tmp_path, []) as history:
        after = made(history, seed, days=4 + 3 * seed)
        view = steadiness_view(history, BAND, NOON.date())
        blips = blips_so_far(history, BAND)
        window = counted(steadiness_blips(history, BAND, Purpose.BAND))[-36:]
        path = history.path

    other = expected(path, after)

    assert blips == other.count
    assert (view is None) == (other.count < 36)
    if view is not None:
        assert view.value == pytest.approx(other.value, abs=1e-9)
        assert (view.low, view.high) == pytest.approx(other.ends, abs=1e-9)
        assert order_interval([one.scaled for one in window]) == pytest.approx(
            other.order, abs=1e-9
        )
        assert view.span == other.days
        assert view.days[-1][1] == view.value
