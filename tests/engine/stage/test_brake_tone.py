"""The brake tone: it does not flicker, and never says on target outside the band."""

from collections.abc import Iterable
from itertools import pairwise

import pytest

from drills.trace import nanoseconds
from engine.stage.brake_tone import SETTLED, Aim, BrakeTone, next_tone

BAND = 5.0  # %
TARGET = 60.0  # %
READ_EACH = nanoseconds(0.004)
SILENT, LIGHT, ON, HEAVY = BrakeTone


def tones(brakes: Iterable[float], each: int = READ_EACH) -> list[BrakeTone]:
    """Tones that a series of brake values plays, each listed once for as long as it lasts.

    The values are `each` ns apart.
    """
    aim = Aim()
    sounds = [aim.tone]
    for number, brake in enumerate(brakes):
        aim = next_tone(aim, brake, (brake - TARGET) / BAND, number * each)
        if aim.tone is not sounds[-1]:
            sounds.append(aim.tone)
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


def test_a_brake_that_only_passes_through_the_band_never_sounds_on_target() -> None:
    # The 7.5 points of the inner band are crossed in 75 values.
    through = tones(path(0, 80), each=SETTLED // 80)

    assert through == [SILENT, LIGHT, HEAVY]


@pytest.mark.parametrize("side", [-1, 1])
def test_the_tone_on_target_starts_after_a_moment_well_inside_and_stops_at_the_edge(
    side: int,
) -> None:
    aim, heard = Aim(), {}
    aside = LIGHT if side < 0 else HEAVY

    for time, lean in ((0, 2), (1, 0.76), (2, 0.75), (2 + SETTLED - 1, 0.1), (2 + SETTLED, 0.7)):
        aim = next_tone(aim, TARGET, side * lean, time)
        heard[time] = aim.tone
    for time, lean in ((SETTLED + 3, 1.0), (SETTLED + 4, 1.001), (SETTLED + 5, 0.7)):
        aim = next_tone(aim, TARGET, side * lean, time)
        heard[time] = aim.tone

    assert list(heard.values()) == [*4 * [aside], ON, ON, aside, aside]


def test_the_moment_begins_anew_where_the_brake_left_the_inner_band() -> None:
    leans = [0.7] * 30 + [0.8] + [0.7] * 30  # 0.12 s on each side of it

    assert tones([TARGET - lean * BAND for lean in leans]) == [SILENT, LIGHT]


@pytest.mark.parametrize("edge", [TARGET - BAND, TARGET + BAND, 0.75 * BAND + TARGET])
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
    now = next_tone(Aim(before, 0), TARGET, lean, SETTLED)

    assert now == Aim(LIGHT if lean < 0 else HEAVY)


@pytest.mark.parametrize("before", list(BrakeTone))
@pytest.mark.parametrize("lean", [-0.75, 0.0, 0.75])
def test_after_a_moment_well_inside_the_band_the_tone_is_always_on_target(
    before: BrakeTone, lean: float
) -> None:
    assert next_tone(Aim(before, 0), TARGET, lean, SETTLED).tone is ON
