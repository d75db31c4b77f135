"""A few simulated feet of the demo reach every verdict and many sentences about a blip."""

from dataclasses import replace
from functools import cache
from itertools import islice

import pytest

from drills.score import Reason, Verdict
from engine.ladder.level_files import SHIPPED, load_levels
from tests.coarse_clock import READ_EACH
from tests.simulated_repetitions import repetitions

FEET = (
    *((0.0, 31), (0.0, 9), (0.0, 13), (0.25, 6), (0.25, 16), (0.25, 19), (0.5, 15)),
)  # skill and seed
EACH = 10
LIMITS = {
    "dip": 15.0,
    "surge": 15.0,
    "rebound": 12.0,
    "settle": 0.7,
    "offset": 5.0,
    "base_error": 4.0,
    "reaction": 0.6,
}
GOOD = next(level for level in load_levels([SHIPPED]) if level.id == "blip-3-good")
LEVEL = replace(GOOD, limits=LIMITS)
REASONS = (
    Reason.CLEAN,
    Reason.OVER_LIMIT,
    Reason.NO_BLIP,
    Reason.EXTRA_BLIP,
    Reason.LATE,
    Reason.LIGHT,
    Reason.HEAVY,
    Reason.LONG,
    Reason.OFF_TARGET,
    Reason.LET_GO,
    Reason.ANTICIPATION,
)


@cache
def verdicts() -> tuple[Verdict, ...]:
    """Verdicts of all feet, ten repetitions each."""
    return tuple(
        record.verdict
        for skill, seed in FEET
        for record in islice(repetitions(LEVEL, skill, seed, step=READ_EACH), EACH)
    )


@pytest.mark.parametrize("reason", REASONS)
def test_a_demo_shows_a_repetition_that_ends_in_every_way_a_foot_can_end_it(reason: Reason) -> None:
    assert any(verdict.reason is reason for verdict in verdicts()), f"feet {FEET}"


@pytest.mark.parametrize("name", LIMITS)
def test_a_demo_shows_every_measure_as_the_worst(name: str) -> None:
    failed = [verdict.worst for verdict in verdicts() if verdict.reason is Reason.OVER_LIMIT]

    assert name in failed, f"feet {FEET}"


def test_a_demo_shows_a_push_before_the_dip_and_one_after_it() -> None:
    pushed = [verdict.measures for verdict in verdicts() if {"surge", "rebound"} & {*verdict.over}]

    first = {(verdict["surge_at"] or 0.0) < (verdict["dip_at"] or 0.0) for verdict in pushed}

    assert first == {True, False}, f"feet {FEET}"


def test_a_demo_shows_many_different_sentences() -> None:
    sentences = {LEVEL.kind.sentence(LEVEL, verdict) for verdict in verdicts()}

    assert len(sentences) > 20, f"feet {FEET}"
