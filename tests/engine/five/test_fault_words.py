"""Words of a coach on each fault."""

import pytest

from drills.fault import Fault
from drills.fault_names import fault_name
from engine.five.fault_words import fault_cue, fault_sentence
from engine.practice.diagnosis import FaultShare

FAULTS = pytest.mark.parametrize("fault", list(Fault))


@pytest.mark.parametrize(
    ("fault", "name", "sentence"),
    [
        (Fault.EARLY_ROLL, "early roll", "the brake leaves before the throttle."),
        (Fault.BRACING, "bracing", "the brake is pressed harder as the blip comes."),
        (Fault.DIP, "dip", "the brake falls with the throttle."),
        (Fault.OVERSHOOT, "overshoot", "the brake comes back too heavy."),
        (Fault.LIGHT, "light finish", "the brake ends lighter than it was held."),
        (Fault.HEAVY, "heavy finish", "the brake ends heavier than it was held."),
        (Fault.BIG, "big blip", "the throttle goes in too far."),
        (Fault.SLOW, "slow blip", "the throttle stays on too long, or comes late."),
        (Fault.LOST, "lost target", "the brake leaves its target in the dark."),
    ],
)
def test_a_fault_is_told_by_what_the_foot_did(fault: Fault, name: str, sentence: str) -> None:
    assert fault_name(fault) == name
    assert fault_sentence(FaultShare(fault, 21, 38)) == f"21 of your last 38: {sentence}"


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
