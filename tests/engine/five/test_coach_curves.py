"""Curves of the coach: bounded reading of stored traces, and the mark that shows the fault."""

from dataclasses import replace
from functools import cache
from itertools import islice

import numpy as np
import pytest

from drills.fault import Fault
from drills.score import Reason, Verdict
from engine.five.coach_curves import WITH_FAULT, WITHOUT, coach_curves, typical_of
from engine.ladder.level_files import SHIPPED, load_levels
from engine.store import History, Record
from engine.store.repetitions import add_repetition
from tests.engine.five.coach_pictures import SHAPES, blip, curves
from tests.made import record
from tests.simulated_repetitions import counted
from tests.stored import in_memory

LEVELS = load_levels([SHIPPED])
BLIP = next(one for one in LEVELS if one.id == "blip-1-first")


@cache
def played() -> tuple[Record, ...]:
    """Blips by the simulated foot, with their traces, recorded as if by feet."""
    return tuple(replace(one, feet=True) for one in islice(counted(BLIP, 0.5, 3), 3))


def stored(history: History, count: int, *, traces: bool = True) -> list[int]:
    """Numbers of so many blips that are put into a history."""
    return [
        add_repetition(history, one if traces else replace(one, trace=None))
        for one in (played()[number % 3] for number in range(count))
    ]


def test_at_most_twelve_traces_are_drawn_from_and_they_are_the_newest() -> None:
    with in_memory() as history:
        numbers = stored(history, 30)
        found = [(one, Fault.DIP if one % 2 else None) for one in numbers]
        # Older ones that are not in the history would be refused if they were read.
        drawn = coach_curves(history, [(9000 + n, Fault.DIP) for n in range(10)] + found, Fault.DIP)

    assert drawn is not None
    assert (drawn.count, len(drawn.without)) == (WITH_FAULT, WITHOUT)
    assert WITH_FAULT + WITHOUT <= 12


def test_blips_with_another_fault_are_neither_with_it_nor_without() -> None:
    with in_memory() as history:
        first, second, third = stored(history, 3)
        found = [(first, Fault.DIP), (second, Fault.LIGHT), (third, None)]
        drawn = coach_curves(history, found, Fault.DIP)

    assert drawn is not None
    assert (drawn.count, len(drawn.without)) == (1, 1)


def test_blips_on_the_way_down_are_passed_over_for_older_ones_on_a_held_brake() -> None:
    with in_memory() as history:
        held = stored(history, 2)
        easing = Verdict(Reason.OVER_LIMIT, 40.0, ("dip",), {"dip": 19.0, "base": 60.0})
        falling = [add_repetition(history, record(kind="trail", verdict=easing)) for _ in range(20)]
        drawn = coach_curves(history, [(one, Fault.DIP) for one in held + falling], Fault.DIP)

    assert drawn is not None
    assert drawn.count == 2


def test_without_a_fault_the_typical_curve_is_of_all_the_newest() -> None:
    with in_memory() as history:
        first, second, third = stored(history, 3)
        drawn = coach_curves(history, [(first, Fault.DIP), (second, None), (third, None)], None)

    assert drawn is not None
    assert (drawn.count, drawn.without, drawn.typical.worst) == (3, (), None)


def test_old_blips_without_traces_have_no_picture() -> None:
    with in_memory() as history:
        numbers = stored(history, 3, traces=False)

        assert coach_curves(history, [(one, Fault.DIP) for one in numbers], Fault.DIP) is None


def test_blips_of_another_definition_have_no_picture() -> None:
    with in_memory() as history:
        numbers = stored(history, 3)
        history.write(lambda db: db.execute("UPDATE repetition SET definition = 1"))

        assert coach_curves(history, [(one, Fault.DIP) for one in numbers], Fault.DIP) is None


@pytest.mark.parametrize(
    ("fault", "at", "side"),
    [
        (Fault.EARLY_ROLL, (-0.01, 0.01), -1),
        (Fault.BRACING, (-0.2, 0.0), 1),
        (Fault.DIP, (0.1, 0.3), -1),
        (Fault.OVERSHOOT, (0.4, 0.7), 1),
        (Fault.LIGHT, (0.9, 1.5), -1),
        (Fault.HEAVY, (0.9, 1.5), 1),
        (Fault.LOST, (-0.5, 0.0), -1),
    ],
)
def test_the_mark_is_on_the_curve_where_the_fault_shows(
    fault: Fault, at: tuple[float, float], side: int
) -> None:
    typical = curves(fault).typical

    worst = typical.worst
    assert worst is not None
    assert at[0] <= worst.at <= at[1]
    assert np.sign(worst.deviation) == side
    on_curve = float(np.interp(worst.at, typical.time, typical.deviation))
    assert worst.deviation == pytest.approx(on_curve, abs=0.01)
    assert worst.label == f"{abs(on_curve):.0f} points"


@pytest.mark.parametrize("fault", list(Fault))
def test_the_typical_curve_stays_inside_its_scale(fault: Fault) -> None:
    typical = curves(fault).typical

    assert float(typical.deviation.min()) > -typical.reach
    assert float(typical.deviation.max()) < 0.7 * typical.reach


@pytest.mark.parametrize(("fault", "label"), [(Fault.BIG, "97 % throttle"), (Fault.SLOW, "0.55 s")])
def test_a_fault_of_the_throttle_is_marked_at_the_throttle(fault: Fault, label: str) -> None:
    typical = curves(fault).typical

    assert typical.timing is not None
    assert (typical.timing.label, typical.worst) == (label, None)


def test_a_fault_that_the_typical_curve_does_not_show_has_no_mark() -> None:
    light = [blip(SHAPES[Fault.LIGHT], 1.0, "held")]

    assert typical_of(light, Fault.HEAVY).worst is None
