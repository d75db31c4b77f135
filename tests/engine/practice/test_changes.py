"""What a set-up of the pedals changed, and whether the brake's points are still the same."""

from datetime import UTC, date, datetime, timedelta

import pytest

from drills.calibration import Calibration, Range
from engine.practice.changes import Change, Changed, is_new_scale, set_up_change

OLD = Calibration(Range(-1.0, 0.5), Range(-1.0, 1.0))


def scaled(brake: Range, throttle: Range = OLD.throttle) -> Calibration:
    """The old calibration with another brake."""
    return Calibration(brake, throttle)


@pytest.mark.parametrize(
    ("new", "what"),
    [
        (scaled(Range(-1.0, 0.875)), Changed.SCALE),
        (scaled(Range(-1.0, 0.44)), Changed.SCALE),
        (scaled(Range(-1.0, 0.54)), Changed.SET_UP),
        (scaled(Range(-1.0, 0.46)), Changed.SET_UP),
        (scaled(Range(-0.9, 0.6)), Changed.SET_UP),
        (scaled(Range(1.0, -0.5)), Changed.SET_UP),
        (scaled(OLD.brake, Range(-1.0, 0.5)), Changed.SET_UP),
        (OLD, None),
    ],
)
def test_a_brake_whose_span_moved_by_more_than_3_percent_is_another_scale(
    new: Calibration, what: Changed | None
) -> None:
    assert set_up_change(OLD, new, same_axis=True) is what


def test_another_axis_is_another_scale_whatever_its_span() -> None:
    assert set_up_change(OLD, OLD, same_axis=False) is Changed.SCALE


def test_the_scale_is_judged_by_the_old_span() -> None:
    assert not is_new_scale(Range(0.0, 1.0), Range(0.0, 0.971))
    assert is_new_scale(Range(0.0, 1.0), Range(0.0, 0.969))


def test_curves_begin_anew_at_every_change_but_a_set_up_on_the_same_scale() -> None:
    assert {what for what in Changed if not what.begins_anew} == {Changed.SET_UP}


@pytest.mark.parametrize(
    ("days", "excused"), [(-1, False), (0, True), (20, True), (21, False), (400, False)]
)
def test_being_worse_is_excused_for_three_weeks_after_a_change(days: int, excused: bool) -> None:
    change = Change(datetime(2024, 5, 3, 23, 50, tzinfo=UTC), Changed.SHOES, 7)

    assert change.excuses(date(2024, 5, 3) + timedelta(days=days)) is excused


@pytest.mark.parametrize("what", [Changed.SCALE, Changed.SET_UP])
def test_pedals_set_up_anew_excuse_nothing(what: Changed) -> None:
    change = Change(datetime(2024, 5, 3, 20, tzinfo=UTC), what, 7)

    assert not what.by_player
    assert not change.excuses(date(2024, 5, 4))
