"""Another measure over the course of a kind: the same repetitions in the same order."""

from pathlib import Path

import numpy as np
import pytest

from drills.score import Reason, Verdict
from engine.practice.results import Purpose
from engine.store import History, open_history
from engine.store.courses import courses_of, values_of
from engine.store.repetitions import add_repetition
from tests.made import record


def keep(history: History, **changes: object) -> None:
    """Keep a blip with a dip and what it costs, or with some other things changed."""
    measures = {"dip": 9.0, "extra_distance": 1.5}
    usual = {"verdict": Verdict(Reason.CLEAN, 90.0, (), measures), "trace": None}
    add_repetition(history, record(**{**usual, **changes}))


def test_another_measure_has_a_value_for_each_repetition_of_the_course(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        keep(history)
        keep(history, verdict=Verdict(Reason.CLEAN, 90.0, (), {"dip": 4.0}))
        keep(history, kind="hold")
        keep(history, feet=False)
        keep(history, verdict=Verdict(Reason.FOCUS_LOST))
        keep(history, why=Purpose.TRIAL)
        keep(history, verdict=Verdict(Reason.CLEAN, 90.0, (), {"dip": 3.0, "extra_distance": 0.5}))

        course = courses_of(history, {"blip": "dip"})["blip"]
        found = values_of(history, "blip", "extra_distance")

    assert course.value.tolist() == [9.0, 4.0, 3.0]
    np.testing.assert_array_equal(found, [1.5, np.nan, 0.5])


@pytest.mark.parametrize(("kind", "measure"), [("run", "dip"), ("blip", "tremor")])
def test_what_was_never_measured_has_no_values(tmp_path: Path, kind: str, measure: str) -> None:
    with open_history(tmp_path, []) as history:
        keep(history)

        found = values_of(history, kind, measure)

    assert np.isnan(found).all()
    assert found.size == (kind == "blip")
