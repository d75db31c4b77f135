"""What is heard of a brake that is looked for: no flicker, and never a false on target."""

from collections.abc import Iterable
from itertools import pairwise

import pytest

from engine.stage.brake_tone import BrakeTone, next_tone

BAND = 5.0  # %
TARGET = 60.0  # %
SILENT, LIGHT, ON, HEAVY = BrakeTone


def heard(brakes: Iterable[float], before: BrakeTone = SILENT) -> list[BrakeTone]:
    """Each sound in turn, once however long it lasts."""
    sounds = [before]
    for brake in brakes:
        now = next_tone(sounds[-1], brake, (brake - TARGET) / BAND)
        if now is not sounds[-1]:
            sounds.append(now)
    return sounds


def course(*ends: float) -> list[float]:
    """Brake on its way from one value to the next, in steps of 0.1 %."""
    way = []
    for start, end in pairwise(ends):
        steps = round(abs(end - start) * 10)
        way += [start + (end - start) * step / steps for step in range(steps + 1)]
    return way


def test_pressing_through_the_target_and_back_is_heard_in_order() -> None:
    sounds = heard(course(0, 80, 0))

    assert sounds == [SILENT, LIGHT, ON, HEAVY, ON, LIGHT, SILENT]


@pytest.mark.parametrize("edge", [TARGET - BAND, TARGET + BAND, 0.85 * BAND + TARGET])
@pytest.mark.parametrize("start", [0.0, TARGET, 100.0])
def test_a_brake_that_hovers_at_an_edge_does_not_toggle(edge: float, start: float) -> None:
    tremble = 0.3  # %, of a foot at rest on a pedal with a little noise
    hovering = [edge + sign * tremble for sign in (-1, 1)] * 100

    sounds = heard([*course(start, edge), *hovering])

    toggles = len(sounds) - len(heard(course(start, edge)))
    assert toggles <= 1, sounds


def test_a_foot_that_rests_on_the_brake_is_not_told_that_it_is_light() -> None:
    resting = [4.5, 4.9, 4.2, 4.9] * 50

    assert heard(resting) == [SILENT]


def test_a_foot_that_trembles_where_the_sound_begins_does_not_toggle() -> None:
    trembling = [4.7, 5.3] * 50

    assert heard(trembling) == [SILENT, LIGHT]


@pytest.mark.parametrize("before", list(BrakeTone))
@pytest.mark.parametrize("lean", [-3.0, -1.001, 1.001, 3.0])
def test_outside_the_band_it_is_never_on_target(before: BrakeTone, lean: float) -> None:
    now = next_tone(before, TARGET, lean)

    assert now is (LIGHT if lean < 0 else HEAVY)


@pytest.mark.parametrize("before", list(BrakeTone))
@pytest.mark.parametrize("lean", [-0.85, 0.0, 0.85])
def test_well_inside_the_band_it_is_always_on_target(before: BrakeTone, lean: float) -> None:
    assert next_tone(before, TARGET, lean) is ON
