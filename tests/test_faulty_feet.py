"""The feet in faulty_feet.py and sensing_feet.py do what they say, as the program measures them."""

from collections.abc import Callable
from pathlib import Path
from statistics import fmean, median, pstdev

import numpy as np
import pytest

from drills.fault import Fault
from drills.level import Level
from drills.score import Reason, Verdict
from engine.ladder.level_files import load_band
from engine.store import open_history
from tests.bench.faulty_feet import FaultyFoot
from tests.bench.faulty_traces import Player
from tests.bench.feet_histories import SQUEEZES, TURNS, WITH_BLIPS, practised
from tests.bench.sensing_feet import SensingFoot
from tests.stored import all_results

CLOSER = next(level for level in WITH_BLIPS if level.id == "blip-2-closer")
GUESS = next(level for level in WITH_BLIPS if level.id == "quiet-guess")
REPETITIONS = 24

SEEN: dict[Fault, Callable[[Verdict], bool]] = {
    Fault.EARLY_ROLL: lambda one: one.amount("lead") > 0.07 and one.amount("dip") > 6,
    Fault.BRACING: lambda one: one.amount("surge") > 4 and one.amount("surge_at") < 0.1,
    Fault.DIP: lambda one: one.amount("dip_at_50") > 6.7 and one.amount("lead") < 0.07,
    Fault.OVERSHOOT: lambda one: one.amount("rebound") > 7 and abs(one.amount("offset")) < 5,
    Fault.LIGHT: lambda one: one.amount("offset") < -4,
    Fault.HEAVY: lambda one: one.amount("offset") > 4,
    Fault.BIG: lambda one: one.amount("peak") > 91,
    Fault.SLOW: lambda one: one.reason is Reason.LONG,
    Fault.LOST: lambda one: one.reason is Reason.OFF_TARGET,
}
"""Whether a repetition that has a fault shows it in what the program measures."""


@pytest.mark.parametrize("fault", Fault)
def test_a_fault_is_in_what_is_measured_of_it_and_in_no_good_blip(fault: Fault) -> None:
    player = Player(FaultyFoot(3, fault, share=0.5))

    played = [player.play(GUESS, number + 1) for number in range(REPETITIONS)]

    for does in (True, False):
        verdicts = [one.verdict for one in played if (one.motion.fault is fault) is does]
        assert len(verdicts) >= REPETITIONS / 4
        shown = sum(SEEN[fault](verdict) for verdict in verdicts)
        assert shown >= 0.9 * len(verdicts) if does else shown <= 0.1 * len(verdicts)


@pytest.mark.parametrize("level", WITH_BLIPS, ids=lambda level: level.id)
def test_a_foot_without_a_fault_can_be_judged_on_every_level_with_blips(level: Level) -> None:
    player = Player(FaultyFoot(4, Fault.DIP, share=0.0))

    reasons = [player.play(level, number + 1).verdict.reason for number in range(8)]

    assert all(not reason.void for reason in reasons)
    assert set(reasons) <= {Reason.CLEAN, Reason.OVER_LIMIT}


def test_a_foot_has_its_fault_in_its_share_of_the_blips() -> None:
    player = Player(FaultyFoot(5, Fault.LIGHT, share=0.6))

    faults = [player.play(CLOSER, 1).motion.fault for _ in range(200)]

    assert set(faults) == {Fault.LIGHT, None}
    assert 100 <= faults.count(Fault.LIGHT) <= 140


def test_slips_of_a_foot_without_a_fault_are_rare_and_of_many_kinds() -> None:
    player = Player(FaultyFoot(6))

    slips = [fault for _ in range(400) if (fault := player.play(CLOSER, 1).motion.fault)]

    assert 10 <= len(slips) <= 50
    assert len(set(slips)) >= 5


def test_good_blips_dip_by_two_to_six_points_for_sixty_percent() -> None:
    player = Player(FaultyFoot(7, Fault.DIP, share=0.0, skill=0.5))

    dips = [player.play(load_band(), 1).verdict.amount("dip_at_50") * 1.2 for _ in range(40)]

    assert 3 < median(dips) < 6
    assert float(np.quantile(dips, 0.9)) < 8


def test_a_foot_makes_blips_of_its_own_size_where_one_is_asked() -> None:
    player = Player(FaultyFoot(8, Fault.DIP, share=0.0, size_bias=-12, size_spread=11))

    peaks = [player.play(load_band(), 1).verdict.amount("peak") for _ in range(200)]

    assert fmean(peaks) == pytest.approx(48, abs=3)
    assert pstdev(peaks) == pytest.approx(11, abs=2.5)


def test_a_foot_practises_what_the_planner_would_mix_and_all_of_it_is_stored(
    tmp_path: Path,
) -> None:
    foot = FaultyFoot(10, Fault.BIG)

    with open_history(tmp_path, []) as history:
        entered = list(practised(foot, history, 24))
        stored = all_results(history)

    counted = [one for one in stored if not one.void]
    assert [one.level for one in stored] == [one.level.id for one in entered]
    assert len(counted) == 24
    assert all(one.counts for one in counted)
    assert [one.why for one in counted] == [*TURNS, *TURNS]
    assert len({one.day for one in counted}) == 2


def test_squeezes_rest_where_the_sense_of_the_foot_puts_them() -> None:
    exact = SensingFoot(9, offset=6, gain=0.85, noise=0.0)

    for number in range(8):
        task, verdict = exact.squeeze(SQUEEZES[-1], number + 1, day=0)

        assert not verdict.void
        pressed = task.target + verdict.amount("offset")
        assert pressed == pytest.approx(6 + 0.85 * task.target, abs=1.5)


def test_the_error_of_a_squeeze_grows_with_its_weight() -> None:
    feet = [SensingFoot(seed) for seed in range(150)]
    light: list[float] = []
    firm: list[float] = []
    for foot in feet:
        task, verdict = foot.squeeze(SQUEEZES[-1], 1, day=0)
        (light if task.target < 55 else firm).append(verdict.amount("offset"))

    assert 2.5 < pstdev(light) < pstdev(firm) < 6.5
