"""The mix: what it draws, and that it has no drill of its own."""

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from drills.kinds import KINDS
from drills.kinds.mixed import NothingToDrawError
from drills.level import Aid, Level
from drills.score import Reason, Verdict
from drills.targets import Targets
from drills.task import Performance
from tests.drills.kinds.made import lines, made
from tests.made import BLIP, HOLD

MIXED = replace(
    BLIP,
    id="a-mix",
    title="A mix",
    kind=KINDS["mixed"],
    targets=Targets((45.0, 55.0)),
    aid=Aid.NONE,
    limits={},
    own={"hardest": 2.0},
)
BLIPS = [replace(BLIP, id=f"blip-{number}") for number in range(4)]
HOLDS = [replace(HOLD, id=f"hold-{number}") for number in range(3)]
PASSED = [*BLIPS, *HOLDS]


def drawn(passed: list[Level], count: int, before: Level | None = None) -> list[Level]:
    """So many levels drawn, one after another."""
    rng = np.random.default_rng(3)
    found = []
    for _ in range(count):
        before = MIXED.kind.draw(MIXED, passed, before, rng)
        found.append(before)
    return found


def test_no_kind_comes_twice_in_a_row_where_there_is_another() -> None:
    kinds = [one.kind.name for one in drawn(PASSED, 40)]

    assert all(one != other for one, other in pairwise(kinds))


def test_a_kind_comes_again_where_there_is_no_other() -> None:
    assert {one.kind.name for one in drawn(HOLDS, 10)} == {"hold"}


def test_the_hardest_of_each_kind_are_drawn_and_each_of_them() -> None:
    counts = Counter(one.id for one in drawn(PASSED, 200))

    assert set(counts) == {"blip-2", "blip-3", "hold-1", "hold-2"}
    assert min(counts.values()) > 25


def test_three_kinds_come_about_equally_often() -> None:
    third = replace(BLIP, id="a-squeeze", kind=KINDS["squeeze"], own={"duration": 2.0})

    counts = Counter(one.kind.name for one in drawn([*PASSED, third], 300))

    assert min(counts.values()) > 70


def test_what_is_drawn_is_asked_at_the_targets_of_the_mix_with_its_help() -> None:
    for one in drawn(PASSED, 10):
        assert one.targets == MIXED.targets
        assert one.aid is MIXED.aid
        assert one.limits == (BLIP if one.kind.name == "blip" else HOLD).limits


def test_a_mix_is_not_drawn_by_a_mix() -> None:
    assert {one.kind.name for one in drawn([replace(MIXED, id="another"), *HOLDS], 10)} == {"hold"}


@pytest.mark.parametrize("passed", [[], [replace(MIXED, id="another")]])
def test_a_mix_of_nothing_is_refused(passed: list[Level]) -> None:
    with pytest.raises(
        NothingToDrawError, match=r"^A mix: expected a level passed to draw from, found none$"
    ):
        drawn(passed, 1)


def test_a_mix_asks_judges_and_tells_nothing_itself() -> None:
    kind, done = MIXED.kind, made(BLIP, lines((0, 60.0)))
    verdict = Verdict(Reason.CLEAN, 80.0)
    said = r"^A mix: expected a level drawn from it first, found none$"

    for ask in (
        lambda: kind.task(MIXED, 60.0, np.random.default_rng(1)),
        lambda: kind.judge(MIXED, done.task, done.done),
        lambda: kind.prompt(MIXED, done.task),
        lambda: kind.comment(MIXED, verdict),
        lambda: kind.picture(MIXED, done.judged),
    ):
        with pytest.raises(NothingToDrawError, match=said):
            ask()


def test_what_is_drawn_is_judged_as_itself() -> None:
    [one] = drawn([BLIP], 1)
    task = one.kind.task(one, 55.0, np.random.default_rng(1))
    still = made(BLIP, lines((0, 55.0)))

    verdict = one.kind.judge(one, task, Performance(still.done.trace, 0, still.done.cues)).verdict

    assert verdict.reason is Reason.NO_BLIP
