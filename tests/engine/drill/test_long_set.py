"""Memory of a long set: what is held of a repetition does not add up."""

import tracemalloc
from dataclasses import replace

import numpy as np
import pytest

from drills.deviation import Deviation
from drills.repetition import Repetition
from drills.score import Reason, Verdict
from engine.drill.attempt import Attempt
from engine.drill.set_log import NEWEST, SetLog, set_tally
from engine.drill.turn import MOST_PICTURES, Pictures
from engine.kit.repetition_marks import Mark
from engine.pedals.moved_ends import LastingEnds
from tests.made import BLIP, record

MEASURES = 30
"""Number of measures of a repetition."""
POINTS = 2001
"""Number of points of a picture: two seconds."""
LITTLE = 100
"""Bytes that may be held of each repetition: its mark, its score and room for the next."""


def attempt(number: int) -> Attempt:
    """Repetition `number` (from 0) of a set: every fourth is void, every other of the rest clean.

    Its numbers and arrays are its own, as those of a played one are.
    """
    measures = {f"measure_{one}": float(number + one) for one in range(MEASURES)}
    verdict = Verdict(Reason.CLEAN, 80.0 + number / 1000, measures=measures)
    if number % 4 == 3:
        verdict = Verdict(Reason.GAP)
    elif number % 2:
        verdict = replace(verdict, reason=Reason.LIGHT, score=0.0)
    time = np.linspace(-0.5, 1.5, POINTS)
    picture = Deviation(time, time + number, (-0.5, 1.5))
    task = BLIP.kind.task(BLIP, 50.0, np.random.default_rng(number))
    one = record(level=BLIP.id, verdict=verdict, feet=False)
    return Attempt(BLIP, Repetition(task, 0), one, picture, False, LastingEnds())


def play(log: SetLog, pictures: Pictures, first: int, after: int) -> None:
    """Add repetitions to a set, from number `first` to before `after`."""
    for number in range(first, after):
        done = attempt(number)
        assert done.record is not None
        log.add(done.record)
        pictures.add(done)


def test_a_long_set_holds_hardly_more_memory_than_a_short_one() -> None:
    log, pictures = SetLog(BLIP, None), Pictures()
    short, long = 100, 400

    tracemalloc.start()
    try:
        play(log, pictures, 0, short)
        before, _ = tracemalloc.get_traced_memory()
        play(log, pictures, short, long)
        after, _ = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()

    assert after - before < LITTLE * (long - short)


def test_a_long_set_is_summed_up_from_all_its_repetitions() -> None:
    log, pictures = SetLog(BLIP, None), Pictures()

    play(log, pictures, 0, 400)

    tally = set_tally(log, lambda: record().at)
    assert (log.played, tally.counted, tally.clean, tally.void) == (400, 300, 200, 100)
    assert tally.marks == (Mark.CLEAN, Mark.MISSED, Mark.CLEAN, Mark.VOID) * 100
    assert tally.score == pytest.approx(80.099)
    assert tally.missed is not None
    assert tally.missed.times == 100


def test_the_newest_of_a_long_set_are_held_whole() -> None:
    log, pictures = SetLog(BLIP, None), Pictures()

    play(log, pictures, 0, 400)

    assert len(log.records) == len(log.counting) == NEWEST
    assert log.records[-2].verdict.measures["measure_0"] == 398
    assert not any(one.verdict.void for one in log.counting)
    drawn = pictures.of(BLIP)
    assert len(drawn) == MOST_PICTURES
    assert [float(one.deviation[0]) for one in drawn[-2:]] == [396.5, 397.5]
