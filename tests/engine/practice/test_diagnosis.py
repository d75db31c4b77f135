"""Diagnosis: the fault that stands out among the newest blips, or none."""

import pytest
from scipy import stats

from drills.fault import Fault
from engine.practice.diagnosis import (
    LEAST,
    NEWEST,
    FaultShare,
    at_least,
    diagnose,
    share_of,
)

EARLY, DIP, LOST = Fault.EARLY_ROLL, Fault.DIP, Fault.LOST


def blips(of: int, **times: int) -> list[Fault | None]:
    """So many blips, some of them with faults by their words."""
    with_fault = [Fault(name) for name, count in times.items() for _ in range(count)]
    return [*with_fault, *[None] * (of - len(with_fault))]


@pytest.mark.parametrize(
    ("faults", "told"),
    [
        ([], None),
        (blips(40), None),
        (blips(LEAST - 1, early=LEAST - 1), None),
        (blips(20, early=9), FaultShare(EARLY, 9, 20)),
        (blips(20, early=8), None),
        (blips(40, early=14), FaultShare(EARLY, 14, 40)),
        (blips(40, early=13), None),
        (blips(40, early=14, dip=7), FaultShare(EARLY, 14, 40)),
        (blips(40, early=14, dip=8), None),
        (blips(40, early=14, dip=14), None),
        (blips(40, dip=20, early=11), FaultShare(DIP, 20, 40)),
        (blips(40, early=14, dip=5, lost=5, light=5), FaultShare(EARLY, 14, 40)),
    ],
)
def test_a_fault_is_told_where_it_stands_out(
    faults: list[Fault | None], told: FaultShare | None
) -> None:
    assert diagnose(faults) == told


def test_only_the_newest_blips_are_looked_at() -> None:
    faults = [*blips(60, lost=60), *blips(NEWEST, early=20)]

    assert diagnose(faults) == FaultShare(EARLY, 20, NEWEST)
    assert share_of(LOST, faults) == FaultShare(LOST, 0, NEWEST)


@pytest.mark.parametrize(("times", "of", "share"), [(0, 5, 0.2), (14, 40, 0.15), (9, 9, 0.5)])
def test_the_chance_is_that_of_the_binomial_distribution(times: int, of: int, share: float) -> None:
    assert at_least(times, of, share) == pytest.approx(stats.binom.sf(times - 1, of, share))
