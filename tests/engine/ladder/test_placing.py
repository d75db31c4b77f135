"""The placing set: which level is asked next, where it ends, and what it opens."""

from itertools import islice

import pytest

from drills.trace import Pedal
from engine.ladder.level_files import SHIPPED, load_levels
from engine.ladder.placing import MOST, Placing, begin, placed
from engine.practice.passes import needed
from tests.simulated_repetitions import counted

LEVELS = load_levels([SHIPPED])
ALL = frozenset(Pedal)
TWO = frozenset({Pedal.BRAKE, Pedal.THROTTLE})
STAGES = ("stillness", "first blip", "quiet blip", "runs", "easing off")
SEED = 1
"""Seed of the simulated feet; of 12 seeds 2 take a beginner past the first stage by luck."""


def after(*outcomes: bool) -> Placing:
    """A placing set after some repetitions."""
    placing = begin(LEVELS, ALL)
    for clean in outcomes:
        placing = placing.after(clean)
    return placing


def stage(placing: Placing) -> str | None:
    """The stage that is asked next; None where the set is over."""
    return None if placing.asked is None else placing.asked.stage


def test_every_stage_but_the_branch_and_the_last_is_asked_in_order() -> None:
    assert tuple(gate.stage for gate in begin(LEVELS, ALL).gates) == STAGES
    assert begin(LEVELS, TWO) == begin(LEVELS, ALL)


@pytest.mark.parametrize(
    ("outcomes", "asked", "taken"),
    [
        ((), "stillness", 0),
        ((True,), "stillness", 0),
        ((True, True), "first blip", 1),
        ((True, False), "stillness", 0),
        ((False, True, True), "first blip", 1),
        ((False, False), None, 0),
        ((True, False, False), None, 0),
        ((True, True, True, False, True), "quiet blip", 2),
        ((True, True, False, False), None, 1),
        ((True,) * 10, None, 5),
    ],
)
def test_two_clean_repetitions_pass_a_stage_and_two_others_end_the_set(
    outcomes: tuple[bool, ...], asked: str | None, taken: int
) -> None:
    placing = after(*outcomes)

    assert stage(placing) == asked
    assert len(placing.taken) == taken


def test_a_placing_set_ends_after_twelve_repetitions() -> None:
    placing = after(*(False, True, True) * 4)

    assert len(placing.outcomes) == MOST == 12
    assert placing.asked is None
    assert len(placing.taken) == 4


def test_a_placing_set_goes_past_exactly_the_levels_of_the_stages_passed() -> None:
    past = placed(after(True, True, True, True, False, False), LEVELS)

    assert past == {level.id for level in LEVELS if level.stage in STAGES[:2]}
    assert placed(after(False, False), LEVELS) == frozenset()


def test_the_levels_a_placing_set_went_past_open_the_stage_it_ended_at() -> None:
    for stages in range(1, 5):
        past = placed(after(*(True, True) * stages, False, False), LEVELS)

        following = next(level for level in LEVELS if level.stage == STAGES[stages])

        assert past.issuperset(level.id for level in needed(following, LEVELS)), following.id


def played(skill: float, seed: int) -> Placing:
    """A placing set played by the simulated foot of some skill."""
    placing = begin(LEVELS, ALL)
    while (level := placing.asked) is not None:
        [one] = islice(counted(level, skill, seed + len(placing.outcomes)), 1)
        placing = placing.after(one.verdict.clean)
    return placing


def test_a_beginner_begins_at_the_bottom_and_an_expert_far_up() -> None:
    beginner, expert = played(0.0, SEED), played(1.0, SEED)

    assert len(beginner.taken) == 0, f"seed {SEED}"
    assert len(expert.taken) >= 4, f"seed {SEED}"
