"""What a simulated foot draws for a repetition: by its seed alone, with slips rarer by skill."""

from itertools import pairwise

import numpy as np
import pytest

from drills.answer import Answer, Slip, draw, rate
from drills.habit import Habit
from drills.measures.blip import ANTICIPATION

SKILLS = (0.0, 0.25, 0.5, 0.75, 1.0)


def answers(skill: float, count: int, seed: int = 11) -> list[Answer]:
    """The answers of a foot, each from a generator of its own."""
    habit = Habit.of(skill)
    return [draw(habit, np.random.default_rng((seed, number))) for number in range(count)]


def test_an_answer_can_be_drawn_again() -> None:
    assert answers(0.2, 50) == answers(0.2, 50)
    assert answers(0.2, 50) != answers(0.2, 50, seed=12)


@pytest.mark.parametrize("slip", Slip)
def test_every_slip_grows_rarer_with_skill_and_none_is_common(slip: Slip) -> None:
    rates = [rate(slip, skill) for skill in SKILLS]

    assert all(better < worse for worse, better in pairwise(rates))
    assert 0 < rates[-1] < 0.02
    assert rates[0] <= 0.05


def test_a_beginner_slips_three_times_in_ten_and_an_expert_hardly() -> None:
    beginner, expert = (sum(rate(slip, skill) for slip in Slip) for skill in (0.0, 1.0))

    assert beginner == pytest.approx(0.30, abs=0.03)
    assert expert < 0.05


@pytest.mark.parametrize("skill", SKILLS)
def test_slips_come_as_often_as_their_rates_say(skill: float) -> None:
    # 4000 draws: four standard deviations of the largest share are 0.03.
    drawn = answers(skill, 4000)

    slipped = sum(answer.slip is not None for answer in drawn) / len(drawn)

    assert slipped == pytest.approx(sum(rate(slip, skill) for slip in Slip), abs=0.03)


@pytest.mark.parametrize("skill", SKILLS)
def test_no_answer_to_a_cue_is_too_soon_to_be_one(skill: float) -> None:
    # World Athletics Technical Rules 16.6 (read): under 0.100 s is a false start.
    assert all(answer.reaction > ANTICIPATION for answer in answers(skill, 1000))


@pytest.mark.parametrize(("skill", "middle", "spread"), [(0.0, 0.34, 0.22), (1.0, 0.24, 0.10)])
def test_reactions_vary_less_with_skill(skill: float, middle: float, spread: float) -> None:
    # 1000 draws: four standard deviations of each are under 0.2 of the spread.
    drawn = np.log([answer.reaction for answer in answers(skill, 1000) if answer.slip is None])

    assert np.median(drawn) == pytest.approx(np.log(middle), abs=0.2 * spread)
    assert np.std(drawn) == pytest.approx(spread, rel=0.15)


@pytest.mark.parametrize("skill", SKILLS)
def test_more_than_one_pulse_is_a_slip_and_so_is_none(skill: float) -> None:
    usual = {Slip.TWICE: 2, Slip.NOT_AT_ALL: 0}

    pulses = [(answer.slip, len(answer.pulses)) for answer in answers(skill, 1000)]

    assert all(count == usual.get(slip, 1) for slip, count in pulses if slip is not None)
    assert all(count == 1 for slip, count in pulses if slip is None)


def test_a_creep_is_mostly_toward_less_and_slower_with_skill() -> None:
    creeps = [np.array([answer.creep for answer in answers(skill, 1000)]) for skill in SKILLS]

    assert all(np.mean(creep < 0) > 0.6 for creep in creeps)
    assert all(
        np.abs(better).mean() < 0.7 * np.abs(worse).mean() for worse, better in pairwise(creeps)
    )
