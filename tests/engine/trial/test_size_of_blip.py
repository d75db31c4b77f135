"""One size of blip in a trial: what is repeated, and what the end says of blips that differ."""

from itertools import cycle

import pytest

from drills.score import Reason
from engine.practice.blip_size import BLIP
from engine.store import History
from engine.trial.outcome import Finding, outcome
from engine.trial.result import past_words
from engine.trial.trial import Arm
from tests.engine.trial.two_positions import LEVEL, PEAK, Trying

PAIRS = 6
ALL = [("change over", "on")] * 2 * PAIRS


def test_a_blip_outside_the_size_is_repeated_and_counts_for_nothing(history: History) -> None:
    trying = Trying(history)
    trying.begin(PAIRS)
    trying.foot.peaks = dict.fromkeys(Arm, cycle((95.0, PEAK, 30.0, PEAK)))

    trying.walk(("change over", "on"), ("change over", "Stop for now"), at_once=True)

    tried = trying.trial.repetitions
    assert LEVEL.own["blip.size"] == 0
    assert [rep.reason is Reason.OFF_SIZE for rep in tried] == [True, False] * 5
    assert [rep.void for rep in tried] == [rep.reason is Reason.OFF_SIZE for rep in tried]
    assert [rep.peak for rep in tried if not rep.void] == pytest.approx([PEAK] * 5, abs=0.01)


def test_equal_feet_with_unequal_blips_are_not_told_apart_and_the_blips_are_named(
    history: History,
) -> None:
    peaks = {Arm.A: 75.0, Arm.B: 45.0}
    dips = {arm: 12.0 * peak / BLIP for arm, peak in peaks.items()}
    trying = Trying(history, dips[Arm.A], dips[Arm.B])
    trying.begin(PAIRS)
    trying.foot.peaks = {arm: cycle((peak,)) for arm, peak in peaks.items()}

    trying.walk(*ALL, ("trial result", "Done"), at_once=True)

    [said] = trying.details_of("trial result")
    found = outcome(trying.trial)
    assert (found.finding, found.dip.smaller) == (Finding.CANNOT_TELL, Arm.B)
    assert said["said"] == (
        "Cannot tell them apart: the blips differed.",
        "The dips may be alike at blips of 60 %.",
        "Typical blips: 75 % with A, 45 % with B.",
    )
    assert past_words(trying.trial) == ("17 May 2024: cannot tell them apart: the blips differed")
