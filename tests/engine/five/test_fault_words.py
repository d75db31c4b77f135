"""Words of a coach on each fault."""

import pytest

from drills.fault import Fault
from drills.fault_names import fault_name
from engine.five.fault_words import fault_cue, fault_sentence
from engine.practice.diagnosis import FaultShare

FAULTS = pytest.mark.parametrize("fault", list(Fault))


def test_an_early_roll_is_told_as_a_driver_says_it() -> None:
    told = fault_sentence(FaultShare(Fault.EARLY_ROLL, 14, 40))

    assert told == "14 of your last 40: the brake leaves before the throttle."


@FAULTS
def test_a_name_fits_a_line_of_six_words(fault: Fault) -> None:
    name = fault_name(fault)

    assert name == name.lower()
    assert len(f"for the {name}".split()) <= 6


@FAULTS
def test_every_fault_has_words_of_its_own(fault: Fault) -> None:
    others = [other for other in Fault if other is not fault]

    assert fault_name(fault) not in map(fault_name, others)
    assert fault_cue(fault) not in map(fault_cue, others)
    assert fault_sentence(FaultShare(fault, 1, 2)) not in [
        fault_sentence(FaultShare(other, 1, 2)) for other in others
    ]
