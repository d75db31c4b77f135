"""Picture of a fault of the throttle: what is marked is what its curve shows."""

import numpy as np
import pytest

from drills.fault import Fault
from engine.five.coach_screen import CoachScreen
from engine.five.coach_throttle import half_width
from engine.kit import theme
from tests.engine.five.coach_pictures import curves, view
from tests.engine.kit.recording_canvas import recorded


@pytest.mark.parametrize("fault", [Fault.BIG, Fault.SLOW])
def test_the_number_is_that_of_the_curve(fault: Fault) -> None:
    typical = curves(fault).typical
    assert typical.throttle is not None
    first, last = half_width(typical.time, typical.throttle)
    told = {Fault.BIG: f"{typical.throttle.max():.0f} %", Fault.SLOW: f"{last - first:.2f} s"}

    said = [text.text for text in recorded(CoachScreen(view(fault))).texts]

    assert told.pop(fault) in said
    assert not {*told.values()} & {*said}


def test_a_big_blip_has_a_ring_at_its_highest_place() -> None:
    canvas = recorded(CoachScreen(view(Fault.BIG)))

    [bold] = [points for colour, points in canvas.curves if colour == theme.THROTTLE]
    highest = min(y for _, y in bold)
    [ring] = [centre for centre, colour in canvas.discs if colour == theme.TEXT]
    assert ring[1] == pytest.approx(highest, abs=3)


def test_the_line_across_a_slow_blip_ends_on_its_curve() -> None:
    canvas = recorded(CoachScreen(view(Fault.SLOW)))

    [bold] = [np.array(points) for colour, points in canvas.curves if colour == theme.THROTTLE]
    half = (bold[:, 1].min() + bold[:, 1].max()) / 2
    [line] = [ends for ends in canvas.lines if ends[0][1] == ends[1][1] == pytest.approx(half)]
    for x, y in line:
        assert np.hypot(bold[:, 0] - x, bold[:, 1] - y).min() < 20


def test_blips_without_the_fault_lie_thin_beside_it() -> None:
    canvas = recorded(CoachScreen(view(Fault.SLOW)))

    thin = [points for colour, points in canvas.curves if colour == theme.EARLIER]
    [bold] = [points for colour, points in canvas.curves if colour == theme.THROTTLE]
    assert len(thin) == 4
    assert all(line[-1][0] < bold[-1][0] for line in thin)


def test_half_of_the_height_is_measured_from_first_to_last() -> None:
    time = np.arange(6) / 10

    width = half_width(time, np.array([0.0, 40.0, 80.0, 50.0, 30.0, 0.0]))

    assert width == (0.1, 0.3)
