"""Diagnosis once more: its counts by hand, and what it tells feet whose one fault is known."""

from dataclasses import replace
from pathlib import Path

import numpy as np

from drills.fault import Fault
from drills.measures.device import FaultKind
from drills.score import Reason, Verdict, weigh
from engine.practice.diagnosis import diagnose
from engine.practice.results import Purpose
from engine.store import History, open_history
from engine.store.faults import newest_faults
from engine.store.repetitions import add_repetition
from engine.store.rigs import USED
from tests.bench.coach_judged import LOOKS, by_diagnosis, heard
from tests.bench.faulty_feet import FaultyFoot
from tests.bench.feet_histories import (
    SQUEEZES,
    WITH_BLIPS,
    Entered,
    moment,
    practised,
    recorded,
    squeezed,
)
from tests.bench.sensing_feet import SensingFoot

FIRST = WITH_BLIPS[2]


def faults_of(entered: list[Entered]) -> list[Fault | None]:
    """Fault of each repetition that is not void, as its kind reads it."""
    return [
        one.level.kind.fault(one.verdict)
        for one in entered
        if not one.verdict.void and one.level.kind.is_diagnosed
    ]


def read(history: History) -> list[Fault | None]:
    """Faults of the newest blips, as the history gives them."""
    return [fault for _, fault in newest_faults(history)]


def test_the_newest_forty_blips_that_count_are_read_and_no_squeeze_between_them(
    tmp_path: Path,
) -> None:
    foot = FaultyFoot(31, Fault.LIGHT)

    with open_history(tmp_path, []) as history:
        entered = list(practised(foot, history, 30))
        list(squeezed(SensingFoot(1), history, SQUEEZES[0], 6))
        entered += practised(replace(foot, seed=32), history, 25)
        found = read(history)

    expected = faults_of(entered)
    assert len(expected) == 55
    assert found == expected[-40:]


def test_what_is_told_is_counted_by_hand(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        entered = list(practised(FaultyFoot(33, Fault.HEAVY), history, 52))
        told = diagnose(read(history))

    newest = faults_of(entered)[-40:]
    assert told is not None
    assert told.fault is Fault.HEAVY
    assert (told.times, told.of) == (newest.count(Fault.HEAVY), 40)
    assert all(newest.count(other) < told.times for other in Fault if other is not Fault.HEAVY)


def test_nothing_is_told_of_fewer_than_twenty_blips(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        list(practised(FaultyFoot(34, Fault.LOST, share=1.0), history, 19))

        assert by_diagnosis(history) is None


def test_only_blips_by_feet_on_the_rig_in_use_enter_a_diagnosis(tmp_path: Path) -> None:
    task = FIRST.kind.task(FIRST, 60.0, np.random.default_rng(1))
    missed = weigh({}, FIRST.limits, Reason.OFF_TARGET)
    counts = recorded(FIRST, task, missed, moment(0, 1))
    others = (
        replace(counts, verdict=Verdict(Reason(FaultKind.STALLED.value))),
        replace(counts, why=Purpose.TRIAL),
        replace(counts, feet=False, source="mouse"),
        replace(counts, rig=1),
    )

    with open_history(tmp_path, []) as history:
        history.write(
            lambda db: db.executemany("INSERT INTO rig VALUES (?, '', '', '{}', 0)", [(1,), (2,)])
        )
        history.keep_setting(USED, 2)
        for record in (counts, *others, replace(counts, rig=2)):
            add_repetition(history, record)
        found = newest_faults(history)

    assert found == [(1, FIRST.kind.fault(missed)), (6, FIRST.kind.fault(missed))]


def test_a_foot_with_one_fault_in_six_of_ten_blips_is_told_that_fault_alone() -> None:
    told = {fault: heard(FaultyFoot(35, fault), looks=LOOKS[:3]).within(40) for fault in Fault}

    assert sum(told[fault] == {fault} for fault in Fault) >= 8
    assert all(found <= {fault} for fault, found in told.items())


def test_a_foot_without_a_fault_is_told_none() -> None:
    told = [heard(FaultyFoot(360 + seed, skill=seed / 4)).within(60) for seed in range(5)]

    assert sum(map(bool, told)) == 0
