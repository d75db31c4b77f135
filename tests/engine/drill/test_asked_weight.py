"""Squeezes ask more often for the weight with the worst error, where it is sure, in practice."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest

from drills.foot import SimulatedFoot
from drills.kinds import KINDS
from drills.level import Level
from drills.score import Reason, Verdict
from drills.targets import Targets
from engine.drill.asked_weight import OF_PRACTICE, target_of, weight_to_ask
from engine.drill.attempt import Setting
from engine.drill.set import end_set, run_set
from engine.drill.set_end import SetEnd
from engine.ladder.level_files import SHIPPED, load_levels
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.practice.results import Purpose
from engine.practice.retention import Retention
from engine.stage.headless import ManualClock
from engine.store import History, open_history
from engine.store.repetitions import add_repetition
from engine.store.retention import write_retention
from tests.engine.drill.quiet import at_once, attend
from tests.engine.kit.recording_canvas import said
from tests.engine.practice.squeezing import squeezes
from tests.fakes import a_stage
from tests.made import record

NOON = datetime(2024, 5, 30, 12, tzinfo=UTC)
BY_ID = {level.id: level for level in load_levels([SHIPPED])}
ANY, SIXTY = BY_ID["still-2c-squeeze-any"], BY_ID["still-2a-squeeze"]
TARGETS = Targets((35.0, 75.0), drawn=True)
DRAWS = 4000


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A history of a foot that presses too little at 75."""
    with open_history(tmp_path, []) as new:
        keep(new, gain=0.85, offset=6.0)
        yield new


class Feet(SimulatedPedals):
    """A simulated foot that counts."""

    counts = True


def keep(history: History, gain: float = 1.0, offset: float = 0.0) -> None:
    """Keep forty squeezes of a foot, none of them clean, so that the level stays to be passed."""
    for one in squeezes(40, gain, offset, 0.02):
        measures = {"offset": one.pressed - one.asked, "reaction": 0.3}
        at = datetime(one.day.year, one.day.month, one.day.day, 12, tzinfo=UTC)
        verdict = Verdict(Reason.OVER_LIMIT, 40.0, ("settle",), measures)
        made = record(
            level=ANY.id, kind="squeeze", target=one.asked, verdict=verdict, trace=None, at=at
        )
        add_repetition(history, made)


def asked(
    history: History | None, why: Purpose = Purpose.LEARN, level: Level = ANY
) -> float | None:
    """The weight that is asked more often."""
    return weight_to_ask(level, level.id, why, history, lambda: NOON)


def test_half_the_targets_are_near_the_weight_and_half_from_the_whole_range() -> None:
    rng = np.random.default_rng(1)

    drawn = np.array([target_of(TARGETS, 1, 75.0, rng) for _ in range(DRAWS)])

    assert set(np.unique(drawn)) == set(map(float, range(35, 76)))
    assert np.mean(drawn >= 70) == pytest.approx(0.5 + 0.5 * 6 / 41, abs=0.03)


def test_a_weight_in_the_middle_is_asked_from_both_sides() -> None:
    rng = np.random.default_rng(1)

    drawn = np.array([target_of(TARGETS, 1, 50.0, rng) for _ in range(DRAWS)])

    assert np.mean(np.abs(drawn - 50) <= 5) == pytest.approx(0.5 + 0.5 * 11 / 41, abs=0.03)


def test_a_weight_that_the_level_never_asks_changes_nothing() -> None:
    low = Targets((20.0, 40.0), drawn=True)
    rng = np.random.default_rng(1)

    drawn = np.array([target_of(low, 1, 75.0, rng) for _ in range(DRAWS)])

    assert drawn.mean() == pytest.approx(30, abs=0.5)


def test_without_a_weight_the_draws_are_those_of_the_level() -> None:
    mine, its = np.random.default_rng(5), np.random.default_rng(5)

    drawn = [target_of(TARGETS, number, None, mine) for number in range(50)]

    assert drawn == [TARGETS.at(number, its) for number in range(50)]
    assert mine.random() == its.random()


@pytest.mark.parametrize("why", Purpose)
def test_practice_asks_for_the_worst_weight_and_checks_do_not(
    why: Purpose, history: History
) -> None:
    assert asked(history, why) == (75.0 if why in OF_PRACTICE else None)
    checks = {Purpose.DUE, Purpose.DARK, Purpose.WARM, Purpose.TRIAL, Purpose.BAND}
    assert not checks & OF_PRACTICE


def test_only_squeezes_whose_targets_are_drawn_ask_for_it(history: History) -> None:
    blip = replace(ANY, kind=KINDS["blip"])

    assert asked(history, level=SIXTY) is None
    assert asked(history, level=blip) is None
    assert asked(history, level=replace(ANY, placing=True)) is None
    assert asked(None) is None


def test_a_level_that_is_due_is_a_check(history: History) -> None:
    day = NOON.date()
    history.write(lambda db: write_retention(db, [(ANY.id, Retention(day))]))

    assert asked(history, Purpose.CHOSEN) is None


def test_nothing_is_asked_more_often_of_a_true_foot(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as true:
        keep(true)

        assert asked(true) is None


def test_a_set_asks_for_it_and_its_end_says_why(history: History) -> None:
    clock = ManualClock()
    pedals = Feet(SimulatedFoot(1.0, 4), clock, "")
    rig = Rig(clock, pedals=CalibratedPedals(pedals, SIMULATED_TRAVEL))
    setting = Setting(rig, a_stage(pedals), history, np.random.default_rng(1), lambda: NOON)

    played = attend(run_set(ANY, setting, 10), clock, at_once, [])

    assert sum(one.target >= 70 for one in played.log.records) >= 4
    screen = next(end_set(ANY, ANY, played.log, setting)).screen
    assert isinstance(screen, SetEnd)
    assert "you press" in " ".join(said(screen))
