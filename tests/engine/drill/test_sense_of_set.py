"""What the end of a set says of the sense of pressure: only where the set had squeezes."""

from engine.drill.set_log import SetLog
from engine.practice.results import Purpose
from engine.store import History, Record
from engine.store.asked import sense_now
from tests.bench.feet_histories import SQUEEZES, moment, recorded, squeezed
from tests.bench.sensing_feet import SensingFoot
from tests.engine.drill.test_retention_by_set import PASSED, record_of
from tests.made import BLIP

LEVEL = SQUEEZES[0]
LIGHT = SensingFoot(2, gain=0.7, noise=0.03)
"""A foot that presses far too little, and evenly."""


def squeeze(number: int) -> Record:
    """One more squeeze of that foot."""
    task, verdict = LIGHT.squeeze(LEVEL, number, 9)
    return recorded(LEVEL, task, verdict, moment(9, number), Purpose.CHOSEN)


def test_a_set_with_squeezes_tells_the_fault_and_one_of_blips_does_not(history: History) -> None:
    list(squeezed(LIGHT, history, LEVEL, 36))
    blips, squeezes, tried = SetLog(BLIP, history), SetLog(LEVEL, history), SetLog(LEVEL, None)

    blips.add(record_of(PASSED, clean=True))
    squeezes.add(squeeze(1))
    tried.add(squeeze(2))

    sense = sense_now(history)
    assert sense is not None
    assert sense.fault is not None
    assert sense.fault.error.value < -3
    assert squeezes.sense_fault == sense.fault
    assert blips.sense_fault is None
    assert tried.sense_fault is None
