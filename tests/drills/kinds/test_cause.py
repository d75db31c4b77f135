"""Cause of what went wrong with a blip: at most one, and the first in time."""

import pytest

from drills.fault import Fault
from drills.kinds import KINDS
from drills.score import Reason, Verdict

BLIP, TRAIL, ZONE = KINDS["blip"], KINDS["trail"], KINDS["zone"]
GOOD = {
    "base": 60.0,
    "base_error": 1.0,
    "dip": 4.0,
    "dip_at": 0.1,
    "surge": 1.0,
    "rebound": 1.0,
    "surge_at": 0.4,
    "offset": -1.0,
    "lead": -0.05,
    "peak": 65.0,
    "width": 0.2,
    "onset": 2.0,
    "end": 2.25,
    "reaction": 0.3,
}
"""Measures of a blip without a fault."""


def found(reason: Reason = Reason.CLEAN, *over: str, **changes: float) -> Fault | None:
    """Fault of the good blip with some measures changed."""
    return BLIP.fault(Verdict(reason, over=over, measures={**GOOD, **changes}))


@pytest.mark.parametrize(
    ("changes", "fault"),
    [
        ({}, None),
        ({"dip": 8.0, "lead": 0.12}, Fault.EARLY_ROLL),
        ({"dip": 8.0, "lead": 0.1}, None),
        ({"surge": 6.0, "surge_at": -0.05}, Fault.BRACING),
        ({"surge": 6.0, "surge_at": 0.3, "rebound": 6.0}, None),
        ({"dip": 11.0, "peak": 60.0}, Fault.DIP),
        ({"dip": 10.9, "peak": 60.0}, None),
        ({"dip": 12.0, "peak": 70.0}, None),
        ({"dip": 11.0, "peak": 35.0}, Fault.DIP),
        ({"rebound": 7.0, "surge": 7.0}, Fault.OVERSHOOT),
        ({"dip": 12.0, "rebound": 13.0, "surge": 13.0}, Fault.OVERSHOOT),
        ({"dip": 14.0, "rebound": 13.0, "surge": 13.0}, Fault.DIP),
        ({"dip": 12.0, "offset": -8.0}, Fault.LIGHT),
        ({"dip": 28.0, "offset": -8.0}, Fault.DIP),
        ({"rebound": 8.0, "surge": 8.0, "offset": 6.0}, Fault.HEAVY),
        ({"rebound": 15.0, "surge": 15.0, "offset": 6.0}, Fault.OVERSHOOT),
        ({"peak": 95.0}, Fault.BIG),
        ({"width": 0.6}, Fault.SLOW),
        ({"reaction": 0.8}, Fault.SLOW),
        ({"base_error": -6.0}, Fault.LOST),
        ({"base_error": -5.0, "offset": -6.0}, Fault.LOST),
        ({"base_error": 5.0, "offset": -6.0}, Fault.LIGHT),
    ],
)
def test_a_blip_has_the_fault_that_its_measures_show(
    changes: dict[str, float], fault: Fault | None
) -> None:
    assert found(Reason.CLEAN, **changes) is fault


@pytest.mark.parametrize(
    ("name", "enough", "too_little", "fault"),
    [
        ("rebound", 7.0, 6.9, Fault.OVERSHOOT),
        ("offset", -5.0, -4.9, Fault.LIGHT),
        ("offset", 5.0, 4.9, Fault.HEAVY),
        ("peak", 90.0, 89.9, Fault.BIG),
        ("width", 0.5, 0.49, Fault.SLOW),
        ("reaction", 0.7, 0.69, Fault.SLOW),
        ("base_error", 6.0, 5.9, Fault.LOST),
        ("base_error", -6.0, -5.9, Fault.LOST),
    ],
)
def test_a_measure_is_a_fault_from_one_size_on(
    name: str, enough: float, too_little: float, fault: Fault
) -> None:
    assert found(Reason.CLEAN, **{name: enough}) is fault
    assert found(Reason.CLEAN, **{name: too_little}) is None


def test_a_push_is_a_fault_from_one_size_on_and_only_before_the_dip() -> None:
    assert found(surge=6.0, surge_at=0.09, dip_at=0.1) is Fault.BRACING
    assert found(surge=5.9, surge_at=0.09, dip_at=0.1) is None
    assert found(surge=6.0, surge_at=0.1, dip_at=0.1) is None


def test_a_brake_that_drifts_on_has_lost_its_target_sooner() -> None:
    assert found(base_error=4.0, offset=5.0) is Fault.LOST
    assert found(base_error=3.9, offset=5.0) is Fault.HEAVY
    assert found(base_error=4.0, offset=4.9) is None
    assert found(base_error=4.0, offset=-5.0) is Fault.LIGHT


@pytest.mark.parametrize("limit", [(), ("dip",)])
def test_a_fault_is_one_whatever_the_level_allows(limit: tuple[str, ...]) -> None:
    reason = Reason.OVER_LIMIT if limit else Reason.CLEAN

    assert found(reason, *limit, dip=18.0) is Fault.DIP
    assert found(reason, *limit, dip=7.0) is None


@pytest.mark.parametrize(
    ("reason", "fault"),
    [
        (Reason.OFF_TARGET, Fault.LOST),
        (Reason.HEAVY, Fault.BIG),
        (Reason.LONG, Fault.SLOW),
        (Reason.LATE, Fault.SLOW),
        (Reason.EXTRA_BLIP, None),
        (Reason.LET_GO, None),
    ],
)
def test_what_was_not_done_as_asked_comes_before_what_the_brake_did(
    reason: Reason, fault: Fault | None
) -> None:
    assert found(reason, "dip", dip=20.0, lead=0.3) is fault


def test_a_brake_let_go_in_the_dark_lost_its_target() -> None:
    assert BLIP.fault(Verdict(Reason.LET_GO)) is Fault.LOST


@pytest.mark.parametrize(
    ("over", "surge", "fault"),
    [
        (("surge",), 8.0, Fault.BRACING),
        (("dip",), 14.0, Fault.EARLY_ROLL),
        ((), 8.0, Fault.EARLY_ROLL),
        ((), 14.0, Fault.BRACING),
        (("dip", "surge"), 14.0, Fault.BRACING),
    ],
)
def test_of_a_push_and_a_brake_that_left_the_fault_is_the_one_that_the_reveal_tells(
    over: tuple[str, ...], surge: float, fault: Fault
) -> None:
    reason = Reason.OVER_LIMIT if over else Reason.CLEAN

    assert found(reason, *over, dip=12.0, lead=0.2, surge=surge, surge_at=-0.3) is fault


def test_a_way_down_has_faults_of_its_blips_alone() -> None:
    measures = {"base": 60.0, "base_error": 1.0, "ramp_worst": 30.0}

    def fault(**blips: float) -> object:
        return TRAIL.fault(Verdict(Reason.CLEAN, measures={**measures, **blips}))

    assert fault() is None
    assert fault(dip=8.0, early=6.0) is Fault.EARLY_ROLL
    assert fault(dip=15.0, early=1.0) is Fault.DIP
    assert fault(dip=15.0, early=-6.0) is Fault.BRACING
    assert fault(dip=1.0, surge=9.0) is None


@pytest.mark.parametrize(
    ("measures", "fault"),
    [
        ({"line_worst": -30.0, "peak_error": 25.0, "off_at": 0.6, "brake_on": 0.4}, None),
        ({"dip": 8.0, "early": 6.0}, Fault.EARLY_ROLL),
        ({"dip": 8.0, "early": None}, None),
        ({"dip": 15.0, "early": None}, Fault.DIP),
        ({"dip": 15.0, "early": -6.0}, Fault.BRACING),
        ({"peak": 95.0}, Fault.BIG),
        ({"width": 0.6}, Fault.SLOW),
    ],
)
def test_a_zone_has_faults_of_its_blips_alone_and_an_early_roll_where_that_is_known(
    measures: dict[str, float | None], fault: Fault | None
) -> None:
    assert ZONE.fault(Verdict(Reason.OVER_LIMIT, measures=measures)) is fault


@pytest.mark.parametrize(
    ("reason", "fault"),
    [
        (Reason.HEAVY, Fault.BIG),
        (Reason.LONG, Fault.SLOW),
        *((one, None) for one in (Reason.NOT_PRESSED, Reason.LET_GO, Reason.FEW_BLIPS)),
        *((one, None) for one in (Reason.CUT_SHORT, Reason.OFF_BEAT, Reason.BLIP_FIRST)),
    ],
)
def test_a_zone_in_which_something_was_not_done_has_the_fault_of_that_alone(
    reason: Reason, fault: Fault | None
) -> None:
    assert ZONE.fault(Verdict(reason, measures={"dip": 30.0, "early": 12.0})) is fault


@pytest.mark.parametrize(
    ("first", "fault"), [(12.0, Fault.EARLY_ROLL), (9.0, Fault.EARLY_ROLL), (6.0, Fault.DIP)]
)
def test_a_run_that_began_early_has_that_fault_unless_a_later_blip_fell_far_deeper(
    first: float, fault: Fault
) -> None:
    assert found(dip=14.0, dip_1=first, lead=0.2, dip_at=0.3) is fault


def test_only_kinds_with_blips_are_diagnosed() -> None:
    assert {name for name, kind in KINDS.items() if kind.is_diagnosed} == {
        *("blip", "counting", "run", "clutch", "trail", "zone")
    }


def test_a_way_back_over_its_limit_is_the_fault_where_the_dip_was_inside() -> None:
    both = {"dip": 29.0, "rebound": 20.0, "surge": 20.0, "offset": 0.0}

    assert found(Reason.OVER_LIMIT, "surge", **both) is Fault.OVERSHOOT
    assert found(Reason.OVER_LIMIT, "dip", **both) is Fault.DIP
    assert found(Reason.OVER_LIMIT, "dip", "surge", **both) is Fault.DIP
    assert found(Reason.CLEAN, **both) is Fault.DIP
