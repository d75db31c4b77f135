"""Figures over days are of the rig in use alone: two brakes have two scales."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import numpy as np

from drills.calibration import Range
from drills.score import Reason, Verdict
from engine.five.saved import stored_blips
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import Identity
from engine.practice.changes import Changed
from engine.practice.results import Purpose
from engine.setup.saved_rigs import add_rig, keep_binding, use_rig
from engine.store import History, open_history
from engine.store.changes import all_changes, scale_start
from engine.store.courses import courses_of, traced_numbers, values_of
from engine.store.repetitions import add_repetition
from tests.made import record

AT = datetime(2024, 5, 17, 18, 0, tzinfo=UTC)
HOME, TRAVEL = 1, 2


def binding(full: float) -> Binding:
    """Brake and throttle whose brake is fully pressed at a raw value."""
    device = Identity("ab" * 14, "Pedals", 2, 0, 1)
    return Binding(BoundAxis(device, 0, Range(-1.0, full)), BoundAxis(device, 1, Range(-1.0, 1.0)))


def two_rigs(folder: Path) -> History:
    """A blip with a dip of 10 at home and one of 20 on the travel rig, which is in use."""
    history = open_history(folder, [])
    add_rig(history, binding(1.0), "home")
    add_rig(history, binding(0.0), "travel")
    for rig, dip in ((HOME, 10.0), (TRAVEL, 20.0)):
        verdict = Verdict(Reason.CLEAN, 80.0, (), {"dip": dip, "surge": 1.0, "peak": 60.0})
        add_repetition(history, record(at=AT, verdict=verdict, rig=rig, why=Purpose.BAND))
    return history


def dips(history: History) -> list[float]:
    """Dips in the course of blips, without those that are left out."""
    values = courses_of(history, {"blip": "dip"})["blip"].value
    assert np.array_equal(values, values_of(history, "blip", "dip"), equal_nan=True)
    return [float(value) for value in values if np.isfinite(value)]


def test_a_course_has_the_repetitions_of_the_rig_in_use(tmp_path: Path) -> None:
    with two_rigs(tmp_path) as history:
        assert dips(history) == [20.0]
        assert traced_numbers(history, "blip", date.min, date.max) == [TRAVEL]

        use_rig(history, HOME)

        assert dips(history) == [10.0]
        assert traced_numbers(history, "blip", date.min, date.max) == [HOME]


def test_steadiness_has_the_blips_of_the_rig_in_use(tmp_path: Path) -> None:
    with two_rigs(tmp_path) as history:
        level = record().level

        of_travel = stored_blips(history, level, Purpose.BAND, 9)
        use_rig(history, HOME)
        of_home = stored_blips(history, level, Purpose.BAND, 9)

    assert [deviation for _, _, deviation, _ in of_travel] == [20.0]
    assert [deviation for _, _, deviation, _ in of_home] == [10.0]


def test_repetitions_before_there_were_rigs_belong_to_every_rig(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        verdict = Verdict(Reason.CLEAN, 80.0, (), {"dip": 5.0})
        add_repetition(history, record(at=AT, verdict=verdict))

        add_rig(history, binding(1.0), "home")

        assert dips(history) == [5.0]


def test_a_new_scale_of_one_rig_changes_nothing_for_another(tmp_path: Path) -> None:
    with two_rigs(tmp_path) as history:
        keep_binding(history, binding(0.5), AT + timedelta(days=1))

        assert scale_start(history) == 2
        assert [change.what for change in all_changes(history)] == [Changed.SCALE]

        use_rig(history, HOME)

        assert scale_start(history) == 0
        assert all_changes(history) == []
