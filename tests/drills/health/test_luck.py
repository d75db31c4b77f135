"""Which levels are partly luck with a rig."""

import math
from dataclasses import replace

import numpy as np
import pytest

from drills.health.luck import Hardware, hardware_of, is_luck, luck
from drills.health.pedal import PedalHealth, measure_health
from drills.level import Level
from drills.trace import Pedal
from tests.drills.health.virtual import Virtual, read
from tests.made import level

GOOD = Hardware(step=0.02, noise=0.02, interval=0.004)


def limited(**limits: float) -> Level:
    """A level with some limits."""
    return replace(level(), limits=limits)


@pytest.mark.parametrize("reports", [60, 125, 250, 1000])
def test_the_extreme_of_noise_is_that_of_as_many_normal_values(reports: int) -> None:
    drawn = np.random.default_rng(1).standard_normal((4000, reports)).max(axis=1).mean()

    hardware = Hardware(step=0.0, noise=0.6, interval=1 / reports)

    assert hardware.extreme == pytest.approx(0.6 * drawn, rel=0.03)


def test_noise_of_0_6_points_at_1000_reports_makes_dips_under_4_points_luck() -> None:
    hardware = Hardware(step=0.01, noise=0.6, interval=0.001)

    assert 3.8 < hardware.dip_least < 4.0
    assert is_luck(limited(dip=3.5), hardware)
    assert not is_luck(limited(dip=4.0), hardware)


@pytest.mark.parametrize(
    ("measure", "least"),
    [
        ("dip", 2 * 0.5),
        ("variable_error", 2 * 0.5 / math.sqrt(12)),
        ("offset", 0.5),
        ("spacing_error", 2 * 0.008),
    ],
)
def test_a_limit_is_luck_where_the_steps_or_reports_take_half_of_it(
    measure: str, least: float
) -> None:
    hardware = Hardware(step=0.5, noise=0.0, interval=0.008)

    assert hardware.least(measure) == pytest.approx(least)
    assert is_luck(limited(**{measure: least * 0.99}), hardware)
    assert not is_luck(limited(**{measure: least * 1.01}), hardware)


def test_what_the_rig_adds_nothing_to_is_no_luck() -> None:
    assert GOOD.least("coupling") is None
    assert not is_luck(limited(coupling=0.1), replace(GOOD, noise=5.0))


@pytest.mark.parametrize(("noise", "lucky"), [(0.3, False), (0.5, True)])
def test_a_level_that_counts_reversals_is_luck_where_noise_alone_makes_one(
    noise: float, lucky: bool
) -> None:
    assert is_luck(limited(reversals=1), replace(GOOD, noise=noise)) is lucky


def test_a_level_that_asks_for_a_steady_brake_asks_for_its_band() -> None:
    noisy = replace(GOOD, noise=1.0)
    narrow, wide = (replace(limited(settle=0.9), band=band) for band in (4.0, 8.0))

    assert [is_luck(one, noisy) for one in (narrow, wide)] == [True, False]


@pytest.mark.parametrize("wrong", [{"interval": 0.041}, {"step": 2.1}])
def test_everything_is_luck_where_nothing_can_be_judged(wrong: dict[str, float]) -> None:
    hardware = replace(GOOD, **wrong)

    assert not hardware.can_judge
    assert is_luck(limited(dip=30), hardware)


def test_good_pedals_and_unknown_ones_mark_no_level() -> None:
    levels = [limited(dip=6, surge=6, settle=0.3, offset=3)]

    assert luck(levels, GOOD) == frozenset()
    assert luck(levels, None) == frozenset()


def test_the_slower_pedal_and_the_noise_of_the_brake_make_the_hardware() -> None:
    slow = measure_health(read(Virtual(12, 60, noise=0.1)).raw)
    quick = measure_health(read(Virtual(12, 250, noise=0.4)).raw)

    hardware = hardware_of([quick[0], slow[1]])

    assert hardware is not None
    assert hardware.interval == pytest.approx(1 / 60, rel=0.05)
    assert hardware.noise == quick[0].noise


@pytest.mark.parametrize("unseen", [Pedal.BRAKE, Pedal.THROTTLE])
def test_of_an_unseen_pedal_nothing_is_known(unseen: Pedal) -> None:
    healths = [
        PedalHealth(one.pedal, seen=False) if one.pedal is unseen else one
        for one in measure_health(read(Virtual(12, 125)).raw)
    ]

    assert hardware_of(healths) is None


def test_steps_too_large_to_tell_reports_apart_are_known_to_be_too_coarse() -> None:
    hardware = hardware_of(measure_health(read(Virtual(5, 250)).raw))

    assert hardware is not None
    assert hardware.is_coarse
    assert not hardware.is_slow
