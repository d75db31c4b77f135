"""What a simulated foot does beside the blip: squeezes, keeps time, eases off, and shifts."""

from itertools import pairwise

import numpy as np
import pytest

from drills.foot import SimulatedFoot
from drills.measures.blip import find_blips
from drills.measures.easing import measure_easing, ramp_of
from drills.measures.step import measure_step
from drills.trace import Grid, Values

SEEDS = range(20)
SKILLS = (0.0, 0.5, 1.0)


def lived(foot: SimulatedFoot, seconds: float) -> tuple[Values, Values, Values]:
    """Brake, throttle and clutch in % of so many seconds, a value a millisecond."""
    rows = [(*foot.step(), foot.clutch) for _ in range(round(1000 * seconds))]
    brake, throttle, clutch = np.array(rows).T
    return brake, throttle, clutch


def holding(skill: float, seed: int, level: float) -> SimulatedFoot:
    """A foot that has held a brake for three seconds and sees nothing now."""
    foot = SimulatedFoot(skill, seed)
    foot.press(level)
    lived(foot, 3.0)
    foot.darken(cued=False)
    return foot


def falls(values: list[float]) -> bool:
    """Whether each is smaller than the one before."""
    return all(one > other for one, other in pairwise(values))


def test_the_better_the_foot_the_nearer_a_squeeze_comes_to_its_target() -> None:
    errors = []
    for skill in SKILLS:
        ends = []
        for seed in SEEDS:
            foot = SimulatedFoot(skill, seed)
            foot.press(0.0)
            foot.darken(cued=False)
            foot.squeeze(60.0)
            ends.append(float(lived(foot, 2.0)[0][-300:].mean()) - 60.0)
        errors.append(float(np.median(np.abs(ends))))

    assert falls(errors), errors


def test_a_squeeze_begins_after_the_cue_could_be_answered() -> None:
    foot = SimulatedFoot(1.0, 3)
    foot.press(0.0)
    foot.darken(cued=False)
    foot.squeeze(60.0)

    step = measure_step(lived(foot, 2.0)[0], 60.0, 5.0)

    assert step.reaction is not None
    assert 0.15 < step.reaction < 0.5


@pytest.mark.parametrize("tempo", [0.5, 1.0])
def test_a_foot_that_keeps_time_blips_with_the_beat_and_better_with_skill(tempo: float) -> None:
    spreads = []
    for skill in SKILLS:
        late = []
        for seed in SEEDS:
            foot = holding(skill, seed, 60.0)
            throttles = []
            for _ in range(3):
                foot.keep_time(tempo)
                throttles.append(lived(foot, tempo)[1])
            throttle = np.concatenate([*throttles, lived(foot, 1.0)[1]])
            grid = Grid(0, np.full(throttle.size, 60.0), throttle)
            beats = [tempo * (beat + 1) for beat in range(3)]
            blips = find_blips(grid)
            if len(blips) == len(beats):
                late += [one.start / 1000 - at for one, at in zip(blips, beats, strict=True)]
        spreads.append(float(np.percentile(np.abs(late), 75)))

    assert falls(spreads), spreads
    assert spreads[-1] < 0.06


def test_the_better_the_foot_the_straighter_it_eases_off() -> None:
    errors = []
    for skill in SKILLS:
        found = []
        for seed in SEEDS:
            foot = holding(skill, seed, 60.0)
            foot.ease(2.0)
            brake = lived(foot, 6.0)[0]
            easing = measure_easing(brake, 0, ramp_of(brake, 0, brake[0], 60.0, 2.0))
            found.append(easing.ramp_error)
            assert easing.release_time is not None
        errors.append(float(np.median([one for one in found if one is not None])))

    assert falls(errors), errors


def test_a_foot_eases_off_with_the_tone_at_the_slope_that_was_asked() -> None:
    starts, times = [], []
    for seed in SEEDS:
        foot = holding(1.0, seed, 60.0)
        foot.ease(2.0)
        brake = lived(foot, 6.0)[0]
        easing = measure_easing(brake, 0, ramp_of(brake, 0, brake[0], 60.0, 2.0))
        assert easing.release_start is not None
        assert easing.release_time is not None
        starts.append(easing.release_start)
        times.append(easing.release_time)

    # The tone holds for 0.3 s, then falls by 30 points a second. The leg, a damped mass with a time
    # constant of 0.08 s, follows 3 points of it after 0.24 s (closed form).
    assert min(starts) > 0.3
    assert np.median(starts) == pytest.approx(0.3 + 0.24, abs=0.05)
    assert np.median(times) == pytest.approx((57 - 5) / 30, rel=0.1)


def test_a_good_foot_has_the_clutch_down_before_the_blip_and_up_after_it() -> None:
    for seed in SEEDS:
        foot = holding(1.0, seed, 60.0)
        foot.shift()
        _, throttle, clutch = lived(foot, 2.5)
        pressed = np.flatnonzero(throttle > 10)
        if not pressed.size:
            continue
        down, up = np.flatnonzero(clutch >= 50)[[0, -1]]

        assert down < pressed[0], f"seed {seed}"
        assert up > pressed[-1], f"seed {seed}"
        assert clutch[0] == clutch[-1] == 0.0


def test_what_was_still_to_come_does_not_once_the_light_is_back() -> None:
    foot = holding(0.5, 4, 60.0)
    foot.shift()
    foot.ease(2.0)

    foot.see()
    brake, throttle, clutch = lived(foot, 2.0)

    assert (throttle.max(), clutch.max()) == (0.0, 0.0)
    assert brake.min() > 40
