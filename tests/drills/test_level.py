"""Reading levels: the shipped ones, the defaults, and every mistake by its whole text."""

from pathlib import Path

import pytest

from drills.foreperiod import Foreperiod
from drills.kinds import KINDS
from drills.level import Aid, Feedback, Level, PassRule
from drills.level_file import LevelError, parse_level
from drills.targets import Targets
from drills.trace import Pedal

SHIPPED = sorted((Path(__file__).parents[2] / "levels").rglob("*.toml"))

BLIP = """
id = "my-blip"
title = "Mine"
purpose = "A level of my own."
kind = "blip"
targets = [60, 45.5]
tolerance = 15
[limits]
dip = 15
settle = 0.6
"""
HOLD = """
id = "my-hold"
title = "Mine"
purpose = "A hold of my own."
kind = "hold"
targets = [30]
tolerance = 5
duration = 4
limits = { total_error = 4 }
"""


def parse(text: str) -> Level:
    """The level in a text, from a file called mine.toml."""
    return parse_level(text, "mine.toml", KINDS)


def test_a_level_that_says_the_least_has_the_usual_rest() -> None:
    assert parse(BLIP) == Level(
        id="my-blip",
        title="Mine",
        purpose="A level of my own.",
        kind=KINDS["blip"],
        targets=Targets((60.0, 45.5)),
        tolerance=15.0,
        limits={"dip": 15.0, "settle": 0.6},
        band=5.0,
        own={"blip.least": 30.0, "blip.most": 100.0, "blip.longest": 0.6, "blip.size": 0.0},
        foreperiod=Foreperiod(1.0, 1.5, 6.0),
        aid=Aid.TONE,
        feedback=Feedback.EVERY,
        summary=5,
        repetitions=10,
        rule=PassRule(8, 10),
        needs=(),
        pedals=(Pedal.BRAKE, Pedal.THROTTLE),
    )


def test_the_usual_rule_passes_with_8_clean_of_the_last_10() -> None:
    assert (PassRule().clean, PassRule().of) == (8, 10)


def test_a_level_that_says_everything_is_taken_at_its_word() -> None:
    level = parse(
        'band = 3\naid = "bubble"\nfeedback = "summary"\nsummary = 8\nrepetitions = 20\n'
        'needs = ["one", "two"]\npedals = ["brake", "clutch"]\n'
        "pass = { clean = 3, of = 4 }\nforeperiod = { shift = 2, mean = 1, cut = 3 }\n" + HOLD
    )

    assert level.own == {"duration": 4.0}
    assert (level.band, level.aid, level.feedback) == (3.0, Aid.BUBBLE, Feedback.SUMMARY)
    assert (level.summary, level.repetitions) == (8, 20)
    assert level.needs == ("one", "two")
    assert level.pedals == (Pedal.BRAKE, Pedal.CLUTCH)
    assert level.rule == PassRule(3, 4)
    assert level.foreperiod == Foreperiod(2.0, 1.0, 3.0)


def test_of_a_hold_nothing_is_guessed() -> None:
    with pytest.raises(LevelError) as refused:
        parse("guess = true\n" + HOLD)

    assert str(refused.value) == (
        "mine.toml: guess: expected false, as nothing of a hold is guessed, found true"
    )


@pytest.mark.parametrize(("tolerance", "band"), [(15, 5.0), (3, 3.0)])
def test_the_target_is_found_within_the_narrower_of_band_and_tolerance(
    tolerance: float, band: float
) -> None:
    level = parse(BLIP.replace("tolerance = 15", f"tolerance = {tolerance}"))

    assert level.approach_band == band


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.name)
def test_a_shipped_level_can_be_read_and_is_called_as_its_file(path: Path) -> None:
    level = parse_level(path.read_text(encoding="utf-8"), path.name, KINDS)

    assert level.id == path.stem
    assert Pedal.BRAKE in level.pedals
    assert (Pedal.THROTTLE in level.pedals) == (level.kind.name not in ("hold", "squeeze"))


def test_keeping_the_brake_within_15_percent_is_good() -> None:
    # Common practice: holding within 15 % through a blip is good.
    path = next(path for path in SHIPPED if path.stem == "blip-3-good")

    level = parse_level(path.read_text(encoding="utf-8"), path.name, KINDS)

    assert level.tolerance == 15
    assert (level.limits["dip"], level.limits["surge"]) == (15, 15)
