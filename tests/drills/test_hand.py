"""The simulated hand presses about the peak of each blip, and leaves its foot as it is."""

from collections.abc import Sequence
from functools import cache

import numpy as np
import pytest

from drills.foot import SimulatedFoot
from drills.hand import FORGETS, HELD, LAG, SPREAD, SimulatedHand
from engine.pedals.port import Reading
from engine.pedals.simulated import SimulatedPedals
from engine.stage.headless import ManualClock

BLIPS = 60
APART = 1500
"""Milliseconds from one cue to the next."""


@cache
def pressed(skill: float, seed: int) -> tuple[list[int], list[int]]:
    """Steps of the peaks of blips that a foot is cued for, and those of the presses of its hand."""
    foot, hand = SimulatedFoot(skill, seed), SimulatedHand(skill, seed)
    foot.press(60.0)
    down, peaks = [False], []
    for _ in range(BLIPS):
        foot.blip()
        peaks += [blip.peak for blip in foot.blips if blip.peak not in peaks]
        for _ in range(APART):
            down.append(hand.step(foot.steps, foot.blips))
            foot.step()
    edges = np.flatnonzero(np.diff(np.array(down, dtype=np.int8)) == 1)
    return peaks, edges.tolist()


def lags(peaks: Sequence[int], presses: Sequence[int]) -> list[float]:
    """Time in s from each peak to the press that is nearest, where one is within 0.5 s."""
    nearest = [min(presses, key=lambda press: abs(press - peak)) - peak for peak in peaks]
    return [late / 1000 for late in nearest if abs(late) < 500]


@pytest.mark.parametrize(("skill", "place"), [(0.0, 0), (1.0, 1)])
def test_a_hand_is_as_late_and_as_uneven_as_its_skill_says(skill: float, place: int) -> None:
    peaks, presses = pressed(skill, 3)

    found = lags(peaks, presses)

    error = SPREAD[place] / np.sqrt(len(found))
    assert np.mean(found) == pytest.approx(LAG[place], abs=4 * error)
    assert np.std(found) == pytest.approx(SPREAD[place], rel=0.3)
    assert len(presses) <= len(peaks)
    assert len(peaks) - len(presses) <= 3 * FORGETS[place] * len(peaks) + 2


def test_the_same_seed_presses_the_same() -> None:
    again = pressed.__wrapped__(1.0, 3)

    assert again == pressed(1.0, 3)


def test_a_press_lasts_a_moment() -> None:
    foot, hand = SimulatedFoot(1.0, 1), SimulatedHand(1.0, 1)
    foot.press(60.0)
    foot.blip()

    down = []
    for _ in range(APART):
        down.append(hand.step(foot.steps, foot.blips))
        foot.step()

    assert sum(down) == HELD


def readings(hand: SimulatedHand | None) -> list[Reading]:
    """What the pedals of one foot read, with or without a hand."""
    clock, foot = ManualClock(), SimulatedFoot(0.4, 7)
    pedals, found = SimulatedPedals(foot, clock, hand=hand), []
    foot.press(60.0)
    for number in range(6000):
        if number % 2000 == 1000:
            foot.blip()
        clock.advance(1_000_000)
        found.append(pedals.read())
    return found


def test_a_foot_does_the_same_with_a_hand_and_without_one() -> None:
    alone, together = readings(None), readings(SimulatedHand(0.4, 7))

    def pedals(read: Reading) -> tuple[float, float, float | None]:
        return read.brake, read.throttle, read.clutch

    assert [pedals(read) for read in alone] == [pedals(read) for read in together]
    assert {read.shift for read in alone} == {None}
    assert {read.shift for read in together} == {False, True}
