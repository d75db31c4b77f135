"""Steadiness as home shows it, against a second implementation that uses nothing of the product.

Histories are made up from a seed and stored; both read them.
"""

import math
import sqlite3
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest

from drills.score import Reason, Verdict
from engine.five.player_history import blips_so_far, steadiness_view
from engine.ladder.level_files import load_band
from engine.practice.changes import Changed
from engine.practice.results import Purpose
from engine.store import History, open_history
from engine.store.changes import mark_change
from engine.store.repetitions import add_repetition
from tests.made import record

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


def expected(path: Path, after: int) -> tuple[int, float, float, float, int]:
    """Blips that count up to 36, and of 36: value, low and high in points, and days."""
    db = sqlite3.connect(path)
    rows = db.execute(READ, (after,)).fetchall()
    db.close()
    taken: list[tuple[date, float]] = []
    for at, offset, dip, surge, peak in rows:
        day = (datetime.fromisoformat(at) + timedelta(minutes=offset)).date()
        if sum(one == day for one, _ in taken) < 9 and len(taken) < 36:
            taken.append((day, max(dip, surge) * 60 / peak))
    if len(taken) < 36:
        return len(taken), math.nan, math.nan, math.nan, 0
    ranked = sorted(deviation for _, deviation in taken)
    value = float(np.quantile(ranked, 0.75))
    return 36, value, ranked[21], ranked[32], len({day for day, _ in taken})


@pytest.mark.parametrize("seed", range(12))
def test_both_agree_to_a_billionth_on_made_up_histories(tmp_path: Path, seed: int) -> None:
    with open_history(tmp_path, []) as history:
        after = made(history, seed, days=4 + 3 * seed)
        view = steadiness_view(history, BAND, NOON.date())
        blips = blips_so_far(history, BAND)
        path = history.path

    count, value, low, high, days = expected(path, after)

    assert blips == count
    assert (view is None) == (count < 36)
    if view is not None:
        assert (view.value, view.low, view.high) == pytest.approx((value, low, high), abs=1e-9)
        assert view.span == days
        assert view.days[-1][1] == view.value
