"""The catalogue: every measure that is computed stands in it once, and is written for a person."""

from dataclasses import fields

import pytest

from drills.kinds import KINDS
from drills.measures.blip import Pulse
from drills.measures.catalogue import CATALOGUE, PLACES, limitable
from drills.measures.chord import OF_A_CHORD
from drills.measures.clutch import ClutchWork
from drills.measures.disturbance import OF_A_RUN, Disturbance
from drills.measures.easing import Easing, Release
from drills.measures.hold import Hold
from drills.measures.shift import Shift
from drills.measures.step import Step
from drills.measures.zone import ZoneWork


def names(kind: type) -> set[str]:
    """The fields of a dataclass."""
    return {field.name for field in fields(kind)}


COMPUTED = {
    *names(Hold),
    *names(Step),
    *names(Release),
    *names(Disturbance),
    *(names(Pulse) - {"first", "after"}),
    *OF_A_RUN,
    *OF_A_CHORD,
    *names(Easing),
    *(names(ClutchWork) - {"down_late", "up_early"}),
    *(names(ZoneWork) - {"run", "judged", "squeeze"}),
    *("shift_at", "knocks", "counted"),
    "base_error",
    "reaction",
    "spacing_error",
    "lateness",
    *("knocks", "counted"),
    *(names(Shift) - {"peak", "before_blip", "after_clutch"}),
    *(f"{name}_{place}" for name in ("dip", "lateness", "shift_at") for place in PLACES),
}


def test_it_holds_every_measure_that_is_computed_and_no_other() -> None:
    assert set(CATALOGUE) == COMPUTED
    assert all(name == measure.name for name, measure in CATALOGUE.items())


def test_every_measure_is_called_by_three_words_at_the_most() -> None:
    assert all(1 <= len(measure.label.split()) <= 3 for measure in CATALOGUE.values())


def test_no_two_measures_of_one_kind_are_called_the_same() -> None:
    for kind in KINDS.values():
        labels = [CATALOGUE[name].label for name in kind.measures]
        assert len(set(labels)) == len(labels)


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("dip", 19.6, "20 points"),
        ("settle", 0.284, "0.28 s"),
        ("settle", None, "never"),
        ("constant_error", 3.96, "+4.0 points"),
        ("constant_error", -0.04, "0.0 points"),
        ("constant_error", 0.04, "0.0 points"),
        ("drift", -0.26, "-0.3 points/s"),
        ("shortfall", 1.234, "1.23 points·s"),
        ("extra_distance", 0.27, "0.3 m"),
        ("coupling", -0.125, "-0.12"),
        ("reversals", 2, "2"),
        ("in_band", 0.987, "0.99"),
    ],
)
def test_a_value_is_written_with_its_unit_and_no_sign_on_nothing(
    name: str, value: float | None, said: str
) -> None:
    assert CATALOGUE[name].written(value) == said


def test_a_level_may_limit_what_is_better_the_less_there_is_of_it() -> None:
    assert limitable(["mean", "swing", "in_band", "tremor"]) == ("swing", "tremor")
    assert limitable(["onset", "end", "peak", "base", "dip_at", "lag", "peak_time"]) == ()
