"""Pedals that report seldom: what they tell is learned from every repetition, void ones too."""

from itertools import islice

from drills.score import Reason
from drills.trace import Pedal
from engine.ladder.level_files import SHIPPED, load_levels
from engine.pedals.faulty import FaultySource, Jumping
from engine.pedals.poor import Seldom
from engine.pedals.port import Source
from engine.pedals.simulated import SIMULATED_TRAVEL
from tests.paired_feet import pairs

LEVEL = next(level for level in load_levels([SHIPPED]) if level.id == "blip-1-first")
RATE = 60.0


def jumps_in_every_wait(source: Source, seed: int) -> FaultySource:
    """Slow pedals whose throttle is 12 points up for one report in every wait for a cue."""
    slow = Seldom(source, RATE, seed)
    throttle = SIMULATED_TRAVEL.throttle
    return Jumping(*(slow, throttle, Pedal.THROTTLE, seed), by=12.0, in_wait=True, lasts=1 / RATE)


def test_a_wrong_report_of_slow_pedals_is_taken_for_the_foot_in_one_repetition_at_most() -> None:
    found = [*islice(pairs(LEVEL, 0.9, 4, jumps_in_every_wait), 4)]

    reasons = [pair.faulty.verdict.reason for pair in found]
    assert Reason.ANTICIPATION not in reasons[1:]
    assert [pair.faulty.verdict.clean for pair in found[1:]] == [
        pair.was_clean for pair in found[1:]
    ]
    assert any(pair.was_clean for pair in found[1:])
