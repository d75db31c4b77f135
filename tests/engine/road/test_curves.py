"""Curves of all blips of a drive, and the median curve of the drills beside them."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest

from drills.score import Reason, Verdict
from drills.trace import Trace, nanoseconds
from engine.road.curves import LABELS, chord_curves, drill_curve
from engine.road.drive import recorded
from engine.road.reopened import reopened
from engine.road.saved import keep_drive
from engine.road.screen_words import GONE
from engine.store import History, open_history
from engine.store.repetitions import add_repetition
from tests.drills.shapes import half_sine, seconds
from tests.earlier import EARLIER, change
from tests.engine.road.test_drive import AT, text
from tests.made import record

NOON = datetime(2024, 5, 17, 12, tzinfo=UTC)
DAY = NOON.date()


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def eased(dip: float, slope: float = -10.0) -> Trace:
    """A brake that eases off from 70 %, with a blip that dips below its chord."""
    time = seconds(4)
    brake = np.clip(70 + slope * np.maximum(time - 1.0, 0), 0, 100)
    brake -= dip * half_sine(0.2)(time - 1.5)
    throttle = 60 * half_sine(0.25)(time - 1.5)
    return Trace(np.arange(time.size, dtype=np.int64) * nanoseconds(0.001), brake, throttle)


def keep(history: History, kind: str, dip: float, count: int, **measures: float) -> None:
    """Keep drills of a kind after the warm-up of a day, and a warm-up that dips far more."""
    for number in range(5 + count):
        deep = 60.0 if number < 5 else dip
        found = {"dip": deep, "mean_dip": deep, **measures}
        add_repetition(
            history,
            record(
                kind=kind,
                level=f"{kind}-1",
                verdict=Verdict(Reason.CLEAN, 90.0, (), found),
                at=NOON - timedelta(days=1),
                trace=eased(deep),
            ),
        )


def test_every_scored_blip_of_a_drive_has_its_curve() -> None:
    found = recorded(text().encode(), at=AT, name="drive.csv")

    curves = list(chord_curves(found.trace, found.runs))

    assert len(curves) == len(found.drive.dips) == 3
    for curve, dip in zip(curves, found.drive.dips, strict=True):
        assert curve.zero == "straight"
        assert -float(curve.deviation.min()) == pytest.approx(dip, abs=0.01)
        assert float(curve.time[0]) == pytest.approx(-0.1)


def test_easing_off_is_drawn_against_its_chord(history: History) -> None:
    keep(history, "trail", 9.0, 3)
    keep(history, "blip", 20.0, 3, onset=1.5, base=70.0)

    found = drill_curve(history, DAY)

    assert found is not None
    label, curve = found
    assert label == LABELS["trail"]
    assert curve.zero == "straight"
    # Of a half sine over 0.2 s whose blip lasts longer, the chord begins and ends beside it.
    assert -float(curve.deviation.min()) == pytest.approx(9.0, abs=0.3)


def test_without_easing_off_single_blips_are_drawn_against_what_was_held(history: History) -> None:
    keep(history, "blip", 9.0, 3, onset=1.5, base=65.0)

    found = drill_curve(history, DAY)

    assert found is not None
    label, curve = found
    assert label == LABELS["blip"]
    assert curve.zero == "held"
    assert float(curve.time[0]) == pytest.approx(-0.5)


def test_there_is_no_curve_of_later_drills_none_or_those_that_are_measured_again(
    history: History,
) -> None:
    assert drill_curve(history, DAY) is None
    keep(history, "trail", 9.0, 3)

    assert drill_curve(history, DAY - timedelta(days=2)) is None
    change(history.path.parent, f"UPDATE repetition SET definition = {EARLIER} WHERE id = 1")
    assert drill_curve(history, DAY) is None


def test_a_drive_of_the_history_has_its_curves_only_from_its_own_recording(
    history: History, tmp_path: Path
) -> None:
    raw = text().encode()
    drive = recorded(raw, at=AT, name="drive.csv").drive
    keep_drive(history, drive)
    missing = reopened(history, drive, tmp_path)
    (tmp_path / "drive.csv").write_bytes(raw)
    there = reopened(history, drive, tmp_path)
    (tmp_path / "drive.csv").write_bytes(raw + b"12.0,0,0\n")
    other = reopened(history, drive, tmp_path)

    assert (len(there.curves), there.warnings) == (3, ())
    for road in (missing, other):
        assert (road.curves, road.warnings) == ((), (GONE,))
        assert road.drive == drive
