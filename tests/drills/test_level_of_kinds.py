"""Targets between two and the numbers of each kind in level files, and what is refused."""

import pytest

from drills.kinds import KINDS
from drills.level import Level
from drills.level_file import LevelError, parse_level
from drills.targets import Targets

BLIP = """
id = "my-blip"
title = "Mine"
purpose = "A level of my own."
kind = "blip"
targets = [60, 45.5]
tolerance = 15
limits = { dip = 15 }
"""
TRAIL = """
id = "my-way"
title = "Mine"
purpose = "A way down of my own."
kind = "trail"
targets = [60]
tolerance = 15
ease = 2.0
blips = 1
limits = { dip = 15 }
"""
WHOLE = "expected a whole number from 30 to 95"


def parse(text: str) -> Level:
    """The level in a text, from a file called mine.toml."""
    return parse_level(text, "mine.toml", KINDS)


def test_targets_may_be_any_between_two_and_what_happened_may_be_guessed() -> None:
    level = parse("guess = true\n" + BLIP.replace("[60, 45.5]", "{ least = 30, most = 75 }", 1))

    assert level.targets == Targets((30.0, 75.0), drawn=True)
    assert level.guess


@pytest.mark.parametrize(
    ("targets", "said"),
    [
        ("{ least = 30 }", f"targets.most: {WHOLE}, found nothing"),
        (
            "{ least = 30, most = 20 }",
            f"targets.most: {WHOLE}, found 20",
        ),
        (
            "{ least = 30, most = 60, step = 5 }",
            "targets.step: expected one of least, most, found an unknown key",
        ),
    ],
)
def test_a_mistake_in_targets_between_two_is_named(targets: str, said: str) -> None:
    with pytest.raises(LevelError) as refused:
        parse(BLIP.replace("[60, 45.5]", targets, 1))

    assert str(refused.value) == f"mine.toml: {said}"


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (
            "blips = 1",
            "blips = 0",
            "limits: expected one on the way down, as no blip is asked, found dip",
        ),
        (
            "ease = 2.0",
            "ease = 1.2",
            "ease: expected at least 1.5 for 1 on the way down, found 1.2",
        ),
        (
            "ease = 2.0\nblips = 1",
            "ease = 1.8\nblips = 2",
            "ease: expected at least 2 for 2 on the way down, found 1.8",
        ),
    ],
)
def test_a_way_down_that_could_not_be_judged_is_refused(old: str, new: str, said: str) -> None:
    with pytest.raises(LevelError) as refused:
        parse(TRAIL.replace(old, new, 1))

    assert str(refused.value) == f"mine.toml: {said}"


@pytest.mark.parametrize("limits", ["{ ramp_error = 5 }", "{ dip = 15, reversals = 2 }"])
def test_a_way_down_without_blips_is_judged_by_the_ramp(limits: str) -> None:
    text = TRAIL.replace("blips = 1", "blips = 0").replace("{ dip = 15 }", limits)

    assert parse(text).own["blips"] == 0


BLIP_NUMBERS = {
    "blip.least": (15, 100, 30),
    "blip.most": (15, 100, 100),
    "blip.longest": (0.05, 1, 0.6),
    "blip.size": (20, 95, 0),
}


@pytest.mark.parametrize(
    ("kind", "numbers"),
    [
        ("hold", {"duration": (1, 60, None)}),
        ("squeeze", {"duration": (1, 5, 1.8)}),
        ("blip", BLIP_NUMBERS),
        ("clutch", BLIP_NUMBERS),
        (
            "run",
            BLIP_NUMBERS
            | {"tempo": (0.4, 2, None), "blips.least": (2, 4, 3), "blips.most": (2, 4, 3)},
        ),
        ("trail", BLIP_NUMBERS | {"ease": (1, 5, None), "blips": (0, 2, 0)}),
        ("mixed", {"hardest": (1, 10, 2)}),
    ],
)
def test_the_numbers_of_a_kind_have_the_ranges_and_defaults_that_level_files_rely_on(
    kind: str, numbers: dict[str, tuple[float, float, float | None]]
) -> None:
    assert {key.path: (key.low, key.high, key.default) for key in KINDS[kind].keys} == numbers
