"""One foot judged twice: the same without a fault, and told apart where there is one."""

from itertools import islice

import pytest

from engine.ladder.level_files import SHIPPED, load_levels
from engine.pedals.faulty import FaultySource, Unplugged
from engine.pedals.poor import Saturating
from engine.pedals.simulated import SIMULATED_TRAVEL
from tests.paired_feet import Pair, Wrap, pairs

LEVELS = {level.id: level for level in load_levels([SHIPPED])}


def played(level: str, wrap: Wrap, count: int = 3) -> list[Pair]:
    """Repetitions of a level by a skilled foot."""
    return [*islice(pairs(LEVELS[level], 0.9, 4, wrap), count)]


@pytest.mark.parametrize("level", ["blip-1-first", "still-1-light", "run-1-two", "ease-1-slow"])
def test_without_a_fault_both_verdicts_are_the_same(level: str) -> None:
    for pair in played(level, lambda source, _: FaultySource(source)):
        assert pair.honest is not None
        assert pair.honest.verdict == pair.faulty.verdict
        assert pair.faulty.verdict.score is not None
        assert pair.voided_by is None


def test_a_fault_changes_what_is_told_and_not_what_the_foot_did() -> None:
    honest = [
        pair.honest for pair in played("blip-1-first", lambda source, _: FaultySource(source))
    ]

    found = played("blip-1-first", lambda source, _: Saturating(source, SIMULATED_TRAVEL, 56.0))

    for pair, alone in zip(found, honest, strict=True):
        assert pair.honest is not None
        assert alone is not None
        assert pair.honest.verdict.amount("base") == pytest.approx(
            alone.verdict.amount("base"), abs=1.0
        )
        assert pair.honest.trace is not None
        assert pair.faulty.trace is not None
        assert pair.faulty.trace.brake.max() == pytest.approx(56.0, abs=0.1)
        assert pair.honest.trace.brake.max() > 57


def test_a_repetition_that_a_fault_makes_void_is_neither_praised_nor_blamed() -> None:
    found = played("blip-1-first", lambda source, _: Unplugged(source, 0.5))

    assert [pair.voided_by for pair in found] == ["unplugged"] * 3
    assert any(pair.was_clean for pair in found)
    assert not any(pair.is_wrongly_clean or pair.is_wrongly_blamed for pair in found)
