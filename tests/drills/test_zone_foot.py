"""The simulated foot in a braking zone: part by part better with skill, and never a jump."""

from dataclasses import replace
from functools import cache
from itertools import islice, pairwise

import numpy as np
import pytest

from drills.braking_zone import Line, at_line
from drills.foot import SimulatedFoot
from drills.kinds.zone import APART, COUNTED, beats_of, zone_of
from drills.measures.blip import find_blips
from drills.score import Judged
from drills.trace import Pedal, Values
from tests.judged_play import judged_play
from tests.made_zone import ZONE

SKILLS = (0.0, 0.5, 1.0)
SEED, COUNT = 11, 16
LINE: Line = ((0.0, 70.0), (1.5, 70.0), (3.0, 0.0))
SQUEEZED = 0.5
"""Time in s after which the brake of a good foot is on its line: six time constants of its leg."""
LEG = 0.16
"""Delay in s of a leg behind an even change: twice its time constant of 0.08 s (closed form)."""


@cache
def played(skill: float) -> tuple[Judged, ...]:
    """Zones of one foot."""
    return tuple(islice(judged_play(ZONE, skill, SEED), COUNT))


def typical(name: str, skill: float) -> float:
    """Median size of a measure over the zones of one foot."""
    found = [one.verdict.measures.get(name) for one in played(skill)]
    return float(np.median([abs(value) for value in found if value is not None]))


def followed(skill: float, seed: int, seconds: float = 4.5) -> tuple[Values, SimulatedFoot]:
    """Brake of a foot that follows a line from 0.6 s on, a value a millisecond."""
    foot = SimulatedFoot(skill, seed)
    foot.press(0.0)
    foot.darken(cued=False)
    foot.follow(LINE, 0.6)
    return np.array([foot.step()[0] for _ in range(round(1000 * seconds))]), foot


@pytest.mark.parametrize(
    "name", ["brake_on", "peak_error", "line_error", "dip", "lateness", "off_at"]
)
def test_the_better_the_foot_the_nearer_each_part_of_a_zone_comes_to_what_is_asked(
    name: str,
) -> None:
    beginner, expert = typical(name, 0.0), typical(name, 1.0)

    assert beginner > 1.5 * expert, f"seed {SEED}: {beginner:.3f} and {expert:.3f}"


def test_the_dip_of_a_zone_is_that_of_the_feet_it_is_played_by() -> None:
    dips = [typical("dip", skill) for skill in SKILLS]

    assert all(worse > 1.5 * better for worse, better in pairwise(dips)), f"seed {SEED}: {dips}"
    assert dips[0] > 20
    assert dips[-1] < 6


def test_an_expert_blips_on_the_beats_that_the_physics_of_the_corner_sets() -> None:
    beats, judged = beats_of(ZONE), 0

    for one in played(1.0):
        grid = one.grid
        point = one.done.cues[COUNTED]
        blips = find_blips(grid)
        if len(blips) == len(beats):
            judged += 1
            late = [
                blip.start - grid.index(point) - 1000 * beat
                for blip, beat in zip(blips, beats, strict=True)
            ]
            assert np.abs(late).max() < 100, f"seed {SEED}"
    assert judged > COUNT / 2


def test_an_expert_is_off_the_brake_about_turn_in() -> None:
    assert typical("off_at", 1.0) < 0.3
    assert typical("brake_on", 1.0) < 0.1


@pytest.mark.parametrize("seed", range(6))
def test_an_expert_s_brake_is_the_line_as_late_as_a_leg_follows_it(seed: int) -> None:
    brake, _ = followed(1.0, seed)
    on = int(np.flatnonzero(brake >= 7.0)[0])

    # A leg is at a tenth of its way after 0.53 time constants (closed form).
    begins = on - round(1000 * 0.53 * 0.08)
    times = np.arange(SQUEEZED, 2.8, 0.01)
    asked = at_line(LINE, times - LEG)
    found = brake[begins + np.rint(1000 * times).astype(np.int64)]
    assert np.sqrt(np.mean((found - asked) ** 2)) < 6.0, f"seed {seed}"


@pytest.mark.parametrize("skill", SKILLS)
def test_a_brake_on_its_line_never_jumps_and_ends_at_rest(skill: float) -> None:
    for seed in range(10):
        brake, _ = followed(skill, seed, seconds=8.0)

        # All of a brake of 100 % pressed with a time constant of 0.08 s: 0.46 % in a ms at most.
        assert np.abs(np.diff(brake)).max() < 2.0, f"seed {seed}"
        assert brake[-1] < 0.1, f"seed {seed}"


def test_a_foot_rests_until_the_braking_point() -> None:
    for seed in range(10):
        brake, _ = followed(1.0, seed)

        assert brake[:500].max() == 0.0, f"seed {seed}"


def test_a_foot_that_is_still_on_the_brake_at_the_last_knock_lets_go() -> None:
    for seed in range(10):
        brake, foot = followed(0.0, seed, seconds=2.0)
        foot.come_off()
        after = np.array([foot.step()[0] for _ in range(1500)])

        assert brake[-1] > 5, f"seed {seed}"
        assert after[50] > 5, f"seed {seed}"
        assert after[-1] < 1, f"seed {seed}"


def test_an_expert_has_the_clutch_down_through_each_blip_of_a_zone_that_asks_for_it() -> None:
    asking = replace(ZONE, pedals=(*ZONE.pedals, Pedal.CLUTCH))

    for one in islice(judged_play(asking, 1.0, SEED), 4):
        grid = one.grid
        assert grid.clutch is not None
        assert Pedal.CLUTCH in one.task.start
        blips = find_blips(grid)
        under = [float(grid.clutch[blip.start : blip.stop].min()) for blip in blips]
        assert len(under) == len(beats_of(ZONE)), f"seed {SEED}"
        assert min(under) > 50, f"seed {SEED}"
        assert grid.clutch[-1] == 0.0


def test_no_clutch_moves_in_a_zone_that_asks_for_none() -> None:
    for one in played(0.0):
        assert one.grid.clutch is not None
        assert one.grid.clutch.max() == 0.0


def test_a_line_is_dropped_once_the_light_is_back() -> None:
    foot = SimulatedFoot(0.5, 3)
    foot.darken(cued=False)
    foot.follow(LINE, 0.6)

    foot.see()
    brake = np.array([foot.step()[0] for _ in range(3000)])

    assert brake.max() < 1


def test_the_same_seed_plays_the_same_zone() -> None:
    one, other = (next(judged_play(ZONE, 0.3, 5)) for _ in range(2))

    assert one.done.trace == other.done.trace
    assert one.verdict == other.verdict


def test_the_knocks_of_a_zone_come_an_even_time_apart_up_to_the_braking_point() -> None:
    zone = next(judged_play(ZONE, 1.0, 5))

    knocks = np.diff(zone.done.cues[: COUNTED + 1]) / 1e9

    assert knocks == pytest.approx(APART, abs=0.002)
    lasted = (zone.done.cues[-1] - zone.done.cues[COUNTED]) / 1e9
    assert lasted == pytest.approx(zone_of(ZONE).seconds, abs=0.002)
