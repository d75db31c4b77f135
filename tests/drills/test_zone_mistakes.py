"""Mistakes in the level file of a braking zone, each named by key, expected and found."""

import pytest

from drills.kinds import KINDS
from drills.level import Level
from drills.level_file import LevelError, parse_level

ZONE = """
id = "my-corner"
title = "Mine"
purpose = "A corner of my own."
kind = "zone"
peak = [70]
tolerance = 15
from = 230
to = 90
shifts = 3
limits = { dip = 15 }
"""
GEARS = "a list of 1 to 4 falling numbers from 20 to 400"
PEAK = "peak: expected a number from 10 to 95, a list of them, or { least, most }"
EITHER = "shifts: expected a number of shifts, or the speeds under gears"

# What is replaced, by what, and what is said of it after the name of the file.
MISTAKES = [
    ("from = 230", "", "from: expected a number from 60 to 400, found nothing"),
    ("from = 230", "from = 401", "from: expected a number from 60 to 400, found 401"),
    ("from = 230", "from = '230'", "from: expected a number from 60 to 400, found '230'"),
    ("to = 90", "", "to: expected a number from 20 to 300, found nothing"),
    ("to = 90", "to = 19", "to: expected a number from 20 to 300, found 19"),
    ("to = 90", "to = 230", "to: expected less than from = 230, found 230"),
    ("peak = [70]", "", f"{PEAK}, found nothing"),
    ("peak = [70]", "peak = []", f"{PEAK}, found []"),
    ("peak = [70]", "peak = 96", "peak: expected a number from 10 to 95, found 96"),
    ("peak = [70]", "peak = [70, 5]", "peak[1]: expected a number from 10 to 95, found 5"),
    ("shifts = 3", "", f"{EITHER}, found neither"),
    ("shifts = 3", "shifts = 0", f"{EITHER}, found neither"),
    ("shifts = 3", "shifts = 3\ngears = [160]", f"{EITHER}, found both"),
    ("shifts = 3", "shifts = 5", "shifts: expected a whole number from 0 to 4, found 5"),
    ("shifts = 3", "shifts = 1.5", "shifts: expected a whole number from 0 to 4, found 1.5"),
    ("shifts = 3", "gears = []", f"gears: expected {GEARS}, found []"),
    ("shifts = 3", "gears = 160", f"gears: expected {GEARS}, found 160"),
    ("shifts = 3", "gears = [120, 160]", f"gears: expected {GEARS}, found [120, 160]"),
    ("shifts = 3", "gears = [160, 160]", f"gears: expected {GEARS}, found [160, 160]"),
    (
        "shifts = 3",
        "gears = [200, 180, 160, 140, 120]",
        f"gears: expected {GEARS}, found [200, 180, 160, 140, 120]",
    ),
    (
        "shifts = 3",
        "gears = [160, 'low']",
        "gears[1]: expected a number from 20 to 400, found 'low'",
    ),
    (
        "shifts = 3",
        "gears = [160, 90]",
        "gears: expected speeds between 90 and 230, found 90",
    ),
    (
        "shifts = 3",
        "gears = [240, 160]",
        "gears: expected speeds between 90 and 230, found 240",
    ),
    (
        "shifts = 3",
        "gears = [160, 150]",
        "gears: expected blips at least 0.35 s apart, found 0.278 s",
    ),
    (
        "shifts = 3",
        "gears = [220, 160]",
        "gears: expected the first blip at least 0.45 s after braking, found 0.278 s",
    ),
    (
        "shifts = 3",
        "gears = [160, 91]",
        "gears: expected the last blip at least 0.45 s before turn-in, found 0.236 s",
    ),
    ("to = 90", "to = 90\ndecel = 2", "decel: expected a number from 3 to 40, found 2"),
    ("to = 90", "to = 90\ndownforce = 4", "downforce: expected a number from 0 to 3, found 4"),
    ("to = 90", "to = 90\nease = 0.2", "ease: expected a number from 0.3 to 3, found 0.2"),
    (
        "to = 90",
        "to = 210\nease = 3",
        "from: expected at least 264, with 3 s of easing off, found 230",
    ),
    (
        "to = 90",
        "to = 90\ndownforce = 3\nease = 3",
        "from: expected less downforce, or under 3 s of easing off, found 230",
    ),
    (
        "to = 90",
        "to = 200",
        "from: expected speeds that are 2 to 5 s of braking apart, found 1.33 s",
    ),
    (
        "to = 90",
        "to = 60",
        "from: expected speeds that are 2 to 5 s of braking apart, found 5.22 s",
    ),
    (
        "dip = 15",
        "ramp_worst = 9",
        f"limits.ramp_worst: expected one of {', '.join(KINDS['zone'].limitable)}, "
        "found a limit on something else",
    ),
    (
        "peak = [70]",
        "peak = [70]\ntargets = [70]",
        "targets: expected one of aid, answers, band, blip, decel, downforce, ease, feedback, "
        "foreperiod, from, gears, guess, id, kind, limits, needs, pass, peak, pedals, placing, "
        "purpose, reach, repetitions, shifts, summary, title, to, tolerance, found an unknown key",
    ),
    (
        "to = 90",
        "to = 90\nguess = true",
        "guess: expected false, as nothing of a zone is guessed, found true",
    ),
]


def parse(text: str) -> Level:
    """The level in a text, from a file called mine.toml."""
    return parse_level(text, "mine.toml", KINDS)


@pytest.mark.parametrize(("old", "new", "said"), MISTAKES, ids=[row[1] for row in MISTAKES])
def test_a_mistake_in_a_zone_is_named_in_one_line(old: str, new: str, said: str) -> None:
    assert ZONE.count(old) == 1

    with pytest.raises(LevelError) as refused:
        parse(ZONE.replace(old, new))

    assert str(refused.value) == f"mine.toml: {said}"


def test_a_corner_without_mistake_says_what_it_asks() -> None:
    level = parse(ZONE)

    # By hand in tests/engine/commands/test_corner.py.
    assert level.kind.asks(level) == "4.4 s, 186 m; blips at 1.0, 1.9, 2.9 s"


@pytest.mark.parametrize(
    ("to", "asked"),
    [(176, "2.0 s, 109 m; blip at 1.0 s"), (68, "5.0 s, 196 m; blip at 1.0 s")],
)
def test_the_shortest_and_the_longest_corner_are_allowed_with_one_blip(to: int, asked: str) -> None:
    # At 10 m/s² a second takes 36 km/h, and the last one, of easing off, half as much.
    text = ZONE.replace("to = 90", f"to = {to}").replace("shifts = 3", "gears = [194]")

    level = parse(text)

    assert level.kind.asks(level) == asked


def test_a_peak_may_be_one_number() -> None:
    level = parse(ZONE.replace("[70]", "70"))

    assert level.targets.values == (70.0,)


def test_gears_stand_in_place_of_a_number_of_shifts() -> None:
    level = parse(ZONE.replace("shifts = 3", "gears = [194, 158]"))

    # 36 km/h are 10 m/s, so a second at 10 m/s².
    assert level.kind.asks(level) == "4.4 s, 186 m; blips at 1.0, 2.0 s"
