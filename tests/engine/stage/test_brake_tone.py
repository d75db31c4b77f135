"""The brake tone: it does not flicker, and never says on target outside the band."""

from collections.abc import Iterable
from itertools import pairwise

import pytest

from engine.stage.brake_tone import BrakeTone, next_tone

BAND = 5.0  # %
TARGET = 60.0  # %
SILENT, LIGHT, ON, HEAVY = BrakeTone


def tones(brakes: Iterable[float], before: BrakeTone = SILENT) -> list[BrakeTone]:
    """Tones that a series of brake values plays, each listed once for as long as it lasts."""
    sounds = [before]
    for brake in brakes:
        now = next_tone(sounds[-1], brake, (brake - TARGET) / BAND)
        if now is not sounds[-1]:
            sounds.append(now)
    return sounds


def path(*ends: float) -> list[float]:
    """Brake values that move from one end to the next in steps of 0.1 %."""
    way = []
    for start, end in pairwise(ends):
        steps = round(abs(end - start) * 10)
        way += [start + (end - start) * step / steps for step in range(steps + 1)]
    return way


def test_pressing_through_the_target_and_back_plays_the_tones_in_order() -> None:
    sounds = tones(path(0, 80, 0))

    assert sounds == [SILENT, LIGHT, ON, HEAVY, ON, LIGHT, SILENT]


@pytest.mark.parametrize("edge", [TARGET - BAND, TARGET + BAND, 0.85 * BAND + TARGET])
@pytest.mark.parametrize("start", [0.0, TARGET, 100.0])
def test_a_brake_that_hovers_at_an_edge_does_not_make_the_tone_flicker(
    edge: float, start: float
) -> None:
    tremble = 0.3  # % of noise of a foot that rests on a pedal
    hovering = [edge + sign * tremble for sign in (-1, 1)] * 100

    sounds = tones([*path(start, edge), *hovering])

    toggles = len(sounds) - len(tones(path(start, edge)))
    assert toggles <= 1, sounds


def test_a_foot_that_rests_on_the_brake_hears_no_tone() -> None:
    resting = [4.5, 4.9, 4.2, 4.9] * 50

    assert tones(resting) == [SILENT]


def test_a_foot_that_trembles_where_the_tone_starts_does_not_make_it_flicker() -> None:
    trembling = [4.7, 5.3] * 50

    assert tones(trembling) == [SILENT, LIGHT]


@pytest.mark.parametrize("before", list(BrakeTone))
@pytest.mark.parametrize("lean", [-3.0, -1.001, 1.001, 3.0])
def test_outside_the_band_the_tone_is_never_on_target(before: BrakeTone, lean: float) -> None:
    now = next_tone(before, TARGET, lean)

    assert now is (LIGHT if lean < 0 else HEAVY)


@pytest.mark.parametrize("before", list(BrakeTone))
@pytest.mark.parametrize("lean", [-0.85, 0.0, 0.85])
def test_well_inside_the_band_the_tone_is_always_on_target(before: BrakeTone, lean: float) -> None:
    assert next_tone(before, TARGET, lean) is ON
