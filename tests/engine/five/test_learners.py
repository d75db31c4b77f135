"""The simulated learners that the planner is compared on, few of them for few days."""

from dataclasses import replace

import numpy as np
import pytest

from engine.five.planner import Planned
from engine.five.player_state import PlayerState
from engine.practice.passes import is_open
from engine.practice.results import Session
from tests.bench.learner import BEST, LAPSE, Learner, difficulties
from tests.bench.learner_day import BAND, LEVELS, Planner
from tests.bench.learners import PLANNERS, outcome
from tests.bench.retention import kept, shown

FEW = range(1, 4)
DAYS = 4


def watched(planner: Planner, seen: list[tuple[PlayerState, Planned]]) -> Planner:
    """A planner that writes down what it planned for whom."""

    def watching(player: PlayerState, session: Session) -> Planned | None:
        planned = planner(player, session)
        if planned is not None:
            seen.append((player, planned))
        return planned

    return watching


def test_every_level_has_a_difficulty_and_the_first_of_a_kind_is_easier_than_its_last() -> None:
    middle = {name: where for name, (where, _) in difficulties().items()}

    assert set(middle) == {one.id for one in LEVELS}
    for first, last in (("still-1-light", "still-4-long"), ("run-1-two", "run-6-any")):
        assert middle[first] + 0.4 < middle[last]


@pytest.mark.parametrize("name", PLANNERS)
def test_the_same_seed_gives_the_same_days(name: str) -> None:
    once, again = (outcome(PLANNERS[name], 0.3, DAYS, 1) for _ in range(2))

    assert once == again
    assert once != outcome(PLANNERS[name], 0.3, DAYS, 2)


@pytest.mark.parametrize("name", PLANNERS)
def test_nothing_closed_is_played_and_every_day_ends_on_time(name: str) -> None:
    seen: list[tuple[PlayerState, Planned]] = []

    days = [outcome(watched(PLANNERS[name], seen), 0.0, DAYS, seed) for seed in FEW]

    assert all(
        planned.level in (player.band, *LEVELS)
        and (planned.level == player.band or is_open(planned.level, player.done))
        for player, planned in seen
    )
    assert max(one.worst_end for one in days) <= 20
    assert all(4.7 * DAYS < one.minutes < 5.3 * DAYS for one in days)


def test_who_never_learns_is_no_better_afterwards() -> None:
    learner = replace(Learner.drawn(1, 0.0), start=0.2, rate=0.0)
    before = {one.id: learner.cold(one) for one in LEVELS}

    for day in range(5):
        learner.wakes(day, 0.0)
        for one in LEVELS * 5:
            learner.practises(one)
    learner.wakes(6, 0.0)

    assert {one.id: learner.cold(one) for one in LEVELS} == before
    assert before["mix-3-nothing"] < 0.2
    assert before["run-6-any"] < 0.01


def test_who_learns_is_better_on_the_day_than_on_the_next_and_better_then_than_before() -> None:
    learner, level = Learner.drawn(1, 0.0), LEVELS[1]
    learner.wakes(0, 0.0)
    before = learner.chance(level)

    for _ in range(60):
        learner.practises(level)
    on_the_day = learner.chance(level)
    learner.wakes(1, 0.0)
    next_day = learner.chance(level)
    learner.wakes(60, 0.0)

    assert before < next_day < on_the_day
    assert before < learner.chance(level) < next_day


def test_what_was_practised_on_days_apart_fades_more_slowly() -> None:
    crammed, spaced = Learner.drawn(1, 0.0), Learner.drawn(1, 0.0)
    for learner, days in ((crammed, (9.0,)), (spaced, (0.0, 3.0, 6.0, 9.0))):
        for day in days:
            learner.wakes(day, 0.0)
            for _ in range(40 // len(days)):
                learner.practises(LEVELS[1])

    lasting = [one.parts[LEVELS[1].id].lasts for one in (crammed, spaced)]

    assert lasting[0] < lasting[1]


def test_mixing_helps_only_where_the_model_says_so() -> None:
    left = {}
    for mixing in (0.0, 0.3):
        for turns in ((0, 1) * 20, (0,) * 20 + (1,) * 20):
            learner = replace(Learner.drawn(1, mixing), uneven=0.0)
            learner.wakes(0, 0.0)
            for turn in turns:
                learner.practises(LEVELS[1 + turn])
            learner.wakes(1, 0.0)
            left[mixing, turns[1]] = sum(learner.cold(one) for one in LEVELS[1:3])

    assert left[0.3, 1] > left[0.3, 0] + 0.01
    assert left[0.0, 1] <= left[0.0, 0]


@pytest.mark.parametrize(("share", "wanted"), [(0.5, 0.1973), (0.8, 0.8044), (0.9, 0.9616)])
def test_the_chance_to_be_retained_agrees_with_the_binomial_distribution(
    share: float, wanted: float
) -> None:
    simulated, _ = shown(share, 1500, seed=1)

    assert kept(share) == pytest.approx(wanted, abs=5e-5)
    assert simulated == pytest.approx(wanted, abs=0.04)


@pytest.mark.parametrize("start", [0.1, 0.4, 0.7, 1.0])
def test_a_load_is_at_most_one_exactly_where_the_repetition_is_clean(start: float) -> None:
    learner = replace(Learner.drawn(1, 0.0), start=start)
    rng = np.random.default_rng(3)

    for level in (*LEVELS[::6], BAND):
        chance = learner.chance(level)
        drawn = [*rng.random(200), chance]
        loads = [learner.load(level, one) for one in drawn]
        assert [load <= 1 + 1e-9 for load in loads] == [one <= chance for one in drawn]
        assert all(0 < load <= 4 for load in loads)


def test_loads_fall_with_ability_towards_those_of_the_best() -> None:
    at = [replace(Learner.drawn(1, 0.0), start=start) for start in (0.0, 0.5, 0.8, 1.1, 3.0)]

    loads = [learner.load(LEVELS[8], 0.75 * (1 - LAPSE)) for learner in at]

    assert loads == sorted(loads, reverse=True)
    assert loads[0] > 1 > loads[2] > loads[3]
    assert loads[-1] == pytest.approx(BEST, rel=0.06)
